// What every page needs from the browser: the mark that it is live, and a way back after a lost link with what was typed.

const keptUnder = "typed:";

let livePath = null;

/** Marks the page as live: its circuit is up and its controls answer. */
export function markLive() {
  document.body.dataset.live = "true";
  livePath = location.pathname;
  putBack();
}

// A link to the same page with another query brings the frame anew and takes the mark along, while the page inside lives on.
globalThis.Blazor?.addEventListener("enhancedload", () => {
  if (location.pathname === livePath) document.body.dataset.live = "true";
});

function fields() {
  return [...document.querySelectorAll("main input, main textarea, main select")].filter(
    (field) => (field.id || field.name) && !["password", "file", "hidden", "submit", "button"].includes(field.type));
}

function nameOf(field) {
  return field.id ? `#${field.id}` : `${field.name}=${field.type === "radio" ? field.value : ""}`;
}

function keep() {
  const typed = {};
  for (const field of fields()) {
    typed[nameOf(field)] = field.type === "checkbox" || field.type === "radio" ? field.checked : field.value;
  }
  sessionStorage.setItem(keptUnder + location.pathname, JSON.stringify(typed));
}

function putBack() {
  const key = keptUnder + location.pathname;
  const kept = sessionStorage.getItem(key);
  if (!kept) return;
  sessionStorage.removeItem(key);
  const typed = JSON.parse(kept);
  for (const field of fields()) {
    const value = typed[nameOf(field)];
    if (value === undefined) continue;
    if (field.type === "checkbox" || field.type === "radio") {
      if (field.checked === value) continue;
      field.checked = value;
    } else {
      if (field.value === value) continue;
      field.value = value;
    }
    field.dispatchEvent(new Event("input", { bubbles: true }));
    field.dispatchEvent(new Event("change", { bubbles: true }));
  }
}

async function serverAnswers() {
  try {
    return (await fetch("/health/live", { cache: "no-store" })).ok;
  } catch {
    return false;
  }
}

/** Waits for the server, then takes the page up again; when the server forgot the page, it is read anew with what was typed. */
async function comeBack() {
  while (!(await serverAnswers())) await new Promise((done) => setTimeout(done, 2000));
  try {
    if (await globalThis.Blazor.reconnect()) return;
  } catch {
    // The server answers but not this page; reading it anew is what is left.
  }
  readAnew();
}

function readAnew() {
  keep();
  location.reload();
}

let comingBack = false;

async function linkChanged(state) {
  if (state !== "hide") delete document.body.dataset.live;
  else document.body.dataset.live = "true";
  if (state === "rejected" || state === "resume-failed") readAnew();
  else if (state === "paused") {
    if (!(await globalThis.Blazor.resumeCircuit())) readAnew();
  } else if (state === "failed" && !comingBack) {
    comingBack = true;
    await comeBack();
    comingBack = false;
  }
}

const notice = document.getElementById("components-reconnect-modal");
notice?.addEventListener("components-reconnect-state-changed", (event) => linkChanged(event.detail.state));

// The framework takes over links within a page and only scrolls; who skips by keyboard must also go on from there.
document.addEventListener("click", (event) => {
  if (event.target instanceof Element && event.target.closest("a.skip")) document.getElementById("content")?.focus({ preventScroll: true });
});
