// Reads and writes the pile data of a map: one little-endian binary answer, columns laid out so that each is a typed-array view without
// a copy. README.md in this folder describes it byte by byte.

const magic = 0x314d5053; // 'SPM1' read as a little-endian number
const headerBytes = 16;

/** Value of the zone and barge columns that means "none". */
export const none8 = 255;
/** Value of the day column that means "not built". */
export const none16 = 65535;

// Wide columns first: every column then begins at a multiple of its own width.
const columns = [
  ['latitude', Float64Array, 0], ['longitude', Float64Array, 0],
  ['deviationEast', Float32Array, 0], ['deviationNorth', Float32Array, 0],
  ['designDiameter', Float32Array, 0], ['builtDiameter', Float32Array, 0],
  ['numberOffset', Uint32Array, 1],
  ['day', Uint16Array, 0],
  ['state', Uint8Array, 0], ['zone', Uint8Array, 0], ['barge', Uint8Array, 0],
];

/** Bytes of all columns for `count` piles, without header, preamble and pile numbers. */
export function columnBytes(count) {
  return columns.reduce((sum, [, type, extra]) => sum + type.BYTES_PER_ELEMENT * (count + extra), 0);
}

/**
 * Reads an answer.
 * @param {ArrayBuffer} buffer the whole answer
 * @returns the preamble, the columns as views of `buffer`, and `numberOf(index)`
 * @throws {Error} a sentence for a person when the answer is not pile data or is cut off
 */
export function readPileData(buffer) {
  if (buffer.byteLength < headerBytes) throw new Error('The pile data are cut off.');
  const header = new Uint32Array(buffer, 0, 4);
  if (header[0] !== magic) throw new Error('The answer is not pile data in a version this page knows.');
  const [, count, preambleBytes, numberBytes] = header;
  if (preambleBytes % 8 !== 0) throw new Error('The pile data are not laid out as agreed: the preamble must fill whole groups of 8 bytes.');
  if (buffer.byteLength !== headerBytes + preambleBytes + columnBytes(count) + numberBytes)
    throw new Error('The pile data are cut off.');

  const decoder = new TextDecoder();
  const data = { count, preamble: JSON.parse(decoder.decode(new Uint8Array(buffer, headerBytes, preambleBytes))) };
  let at = headerBytes + preambleBytes;
  for (const [name, Type, extra] of columns) {
    data[name] = new Type(buffer, at, count + extra);
    at += data[name].byteLength;
  }
  const numbers = new Uint8Array(buffer, at, numberBytes);
  data.numberOf = index => decoder.decode(numbers.subarray(data.numberOffset[index], data.numberOffset[index + 1]));
  return data;
}

/** Number of the hold point that a pile waits for; undefined where it waits for none. */
export function holdPointOf(data, index) {
  data.holds ??= new Map(data.preamble.waiting ?? []);
  return data.holds.get(index);
}

/**
 * Writes an answer; the server has its own writer, this one serves tests, the development page and the bench.
 * @param {object} preamble see README.md
 * @param {object} source one array-like per column, and `numbers`, an array of strings
 */
export function writePileData(preamble, source) {
  const encoder = new TextEncoder();
  const count = source.numbers.length;
  const numbers = source.numbers.map(text => encoder.encode(text));
  const numberBytes = numbers.reduce((sum, bytes) => sum + bytes.length, 0);
  const json = encoder.encode(JSON.stringify(preamble));
  const preambleBytes = Math.ceil(json.length / 8) * 8;

  const buffer = new ArrayBuffer(headerBytes + preambleBytes + columnBytes(count) + numberBytes);
  new Uint32Array(buffer, 0, 4).set([magic, count, preambleBytes, numberBytes]);
  const text = new Uint8Array(buffer, headerBytes, preambleBytes).fill(0x20);
  text.set(json);
  let at = headerBytes + preambleBytes;
  for (const [name, Type, extra] of columns) {
    const view = new Type(buffer, at, count + extra);
    if (name === 'numberOffset') numbers.forEach((bytes, i) => { view[i + 1] = view[i] + bytes.length; });
    else view.set(source[name]);
    at += view.byteLength;
  }
  const blob = new Uint8Array(buffer, at);
  let end = 0;
  for (const bytes of numbers) { blob.set(bytes, end); end += bytes.length; }
  return buffer;
}
