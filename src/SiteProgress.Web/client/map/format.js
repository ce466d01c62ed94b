// Numbers as people read them on the map: a real minus sign, thin spaces for thousands, units always there.

const minus = '\u2212', thinSpace = '\u2009';
/** Shown where a value is missing. */
export const missing = '\u2003\u2014';

/** A number with a fixed count of decimals. */
export function fixed(value, decimals) {
  if (!Number.isFinite(value)) return missing;
  const [whole, part] = Math.abs(value).toFixed(decimals).split('.');
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, thinSpace);
  const text = part ? `${grouped}.${part}` : grouped;
  return value < 0 && /[1-9]/.test(text) ? minus + text : text;
}

/** Latitude and longitude to 8 decimals of a degree with their hemisphere. */
export function geographic(latitude, longitude) {
  return `${Math.abs(latitude).toFixed(8)}° ${latitude < 0 ? 'S' : 'N'}, ${Math.abs(longitude).toFixed(8)}° ${longitude < 0 ? 'W' : 'E'}`;
}
