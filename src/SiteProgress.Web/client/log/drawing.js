// What is drawn into a panel beside its lines: its title, levels of the design, phases as lanes, charges as sticks, numbered events.

const ratio = () => window.devicePixelRatio || 1;

/** Draws everything of a panel that is not a line of samples; `share` of the size of its words, smaller on paper. */
export function drawBeside(u, panel, marks, colourOf, share = 1) {
  const { ctx } = u;
  ctx.save();
  ctx.beginPath();
  ctx.rect(u.bbox.left, u.bbox.top, u.bbox.width, u.bbox.height);
  ctx.clip();
  for (const line of panel.lines ?? []) drawLevel(u, line, colourOf, share);
  if (panel.lanes) drawLanes(u, panel.lanes, colourOf);
  if (panel.sticks) drawSticks(u, panel.sticks, colourOf);
  ctx.restore();
  if (panel.marked) drawMarks(u, marks, colourOf, share);
  if (!panel.lanes) words(u, panel.title, u.bbox.left + 6 * ratio(), u.bbox.top + 12 * share * ratio(), colourOf, { weight: 600, share });
}

function drawLevel(u, { at, name }, colourOf, share) {
  const { ctx } = u, y = Math.round(u.valToPos(at, 'y', true));
  ctx.strokeStyle = colourOf('--text');
  ctx.lineWidth = ratio();
  ctx.setLineDash([7 * ratio(), 4 * ratio()]);
  ctx.beginPath();
  ctx.moveTo(u.bbox.left, y);
  ctx.lineTo(u.bbox.left + u.bbox.width, y);
  ctx.stroke();
  ctx.setLineDash([]);
  words(u, name, u.bbox.left + u.bbox.width - 6 * ratio(), y - 4 * ratio(), colourOf, { align: 'right', share });
}

/** A lane for each kind of phase: which one it is is told by where it lies, the word stands at its left. */
function drawLanes(u, lanes, colourOf) {
  const { ctx } = u, lane = u.bbox.height / lanes.length;
  lanes.forEach(({ spans }, place) => {
    const top = u.bbox.top + place * lane;
    ctx.fillStyle = colourOf('--blue');
    for (const [from, to] of spans) {
      const left = u.valToPos(from, 'x', true), right = u.valToPos(to, 'x', true);
      ctx.fillRect(left, top + lane * 0.2, Math.max(right - left, ratio()), lane * 0.6);
    }
  });
}

function drawSticks(u, sticks, colourOf) {
  const { ctx } = u, bottom = u.valToPos(0, 'y', true);
  ctx.strokeStyle = ctx.fillStyle = colourOf('--text');
  ctx.lineWidth = 1.5 * ratio();
  for (const [at, size] of sticks) {
    const x = u.valToPos(at, 'x', true), y = u.valToPos(size, 'y', true);
    ctx.beginPath();
    ctx.moveTo(x, bottom);
    ctx.lineTo(x, y);
    ctx.stroke();
    ctx.beginPath();
    ctx.arc(x, y, 2.2 * ratio(), 0, 2 * Math.PI);
    ctx.fill();
  }
}

/** Events as numbers in a ring; the table of events carries the same numbers. One that would lie on another is put beside it. */
function drawMarks(u, marks, colourOf, share) {
  const { ctx } = u, radius = 8 * share * ratio(), placed = [];
  ctx.font = `600 ${10 * share * ratio()}px system-ui, "DejaVu Sans", sans-serif`;
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  for (const { number, at, level } of marks) {
    let x = u.valToPos(at, 'x', true), y = Math.min(Math.max(level === null ? u.bbox.top : u.valToPos(level, 'y', true), u.bbox.top + radius), u.bbox.top + u.bbox.height - radius);
    if (x < u.bbox.left - 1 || x > u.bbox.left + u.bbox.width + 1) continue;
    while (placed.some(other => Math.hypot(other.x - x, other.y - y) < 2 * radius)) x += 2 * radius;
    placed.push({ x, y });
    ctx.beginPath();
    ctx.arc(x, y, radius, 0, 2 * Math.PI);
    ctx.fillStyle = colourOf('--ground');
    ctx.fill();
    ctx.strokeStyle = colourOf('--vermilion');
    ctx.lineWidth = 2 * ratio();
    ctx.stroke();
    ctx.fillStyle = colourOf('--text');
    ctx.fillText(String(number), x, y);
  }
}

function words(u, text, x, y, colourOf, { align = 'left', weight = 400, share }) {
  const { ctx } = u;
  ctx.font = `${weight} ${11 * share * ratio()}px system-ui, "DejaVu Sans", sans-serif`;
  ctx.textAlign = align;
  ctx.textBaseline = 'alphabetic';
  ctx.lineJoin = 'round';
  ctx.strokeStyle = colourOf('--ground');
  ctx.lineWidth = 4 * ratio();
  ctx.strokeText(text, x, y);
  ctx.fillStyle = colourOf('--text');
  ctx.fillText(text, x, y);
}
