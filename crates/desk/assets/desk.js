// The desk's script: the worked page follows the question while the teacher types.
// Everything here also works without it, as a plain form.

/** Milliseconds without a keystroke before the question is worked. */
const PAUSE = 150;
/** Milliseconds without a change before a screen reader is told of the outcome. */
const QUIET = 800;

const find = (selector, within = document) => within.querySelector(selector);
const all = (selector, within = document) => [...within.querySelectorAll(selector)];

const ask = find("#ask");
const question = find("#question");
const numbers = find("#numbers");
const sheet = find("#sheet");
const restore = find("#restore");

// What the browser keeps for this page until its tab is closed. Some browsers keep nothing; the desk works all the same.
const place = "desk " + location.pathname;
const kept = {
  get() {
    try { return sessionStorage.getItem(place); } catch { return null; }
  },
  set(text) {
    try { sessionStorage.setItem(place, text); } catch { /* nothing is kept */ }
  },
};

// ---- The question and its worked page -------------------------------------------------------------------

/** The text that the inputs below the question belong to. */
let numbered = question.defaultValue;
let turn = 0;
let going = null;
let pause = 0;

function soon() {
  kept.set(question.value);
  restore.hidden = location.pathname === "/" || question.value === question.defaultValue;
  clearTimeout(pause);
  pause = setTimeout(work, PAUSE);
}

/** What the desk is sent: the question, what is to be ignored, and the text before the last change by a button. */
function fields() {
  const sent = new URLSearchParams({ question: question.value, before });
  for (const phrase of ignored) sent.append("ignored", phrase);
  return sent;
}

async function work() {
  clearTimeout(pause);
  const text = question.value;
  const mine = ++turn;
  going?.abort();
  going = new AbortController();
  try {
    const sent = { method: "POST", body: fields(), signal: going.signal };
    const answer = await fetch("/work", sent);
    const parts = new DOMParser().parseFromString(await answer.text(), "text/html");
    // Where the text has gone on meanwhile, its own answer is about to be asked for.
    if (mine === turn && text === question.value) show(parts, text);
  } catch {
    if (mine === turn) unreachable();
  }
}

function show(parts, text) {
  const outcome = find("#outcome", parts);
  if (outcome) tell(outcome.className, outcome.innerHTML, outcome.dataset.title);
  const leaf = find("#sheet", parts);
  if (!leaf) return outdated();
  const across = window.scrollX, down = window.scrollY;
  sheet.classList.remove("outdated");
  sheet.replaceChildren(...leaf.childNodes);
  window.scrollTo(across, down);
  offer(find("#mend", parts), text);
  follow(find("#numbers", parts), text);
}

function unreachable() {
  tell("outcome refused", "", "");
  const strong = document.createElement("strong");
  strong.textContent = "The desk does not answer.";
  find("#outcome").append(strong, " Your text is kept here. Start the desk again, then press “Work it out”.");
  announce();
  outdated();
}

/** What is on the sheet belongs to an earlier text: it says so. */
function outdated() {
  if (sheet.classList.contains("outdated") || !find(".title", sheet)) return;
  sheet.classList.add("outdated");
  const note = document.createElement("p");
  note.className = "earlier";
  note.textContent = "This page belongs to the question as it was before.";
  sheet.prepend(note);
}

/** Puts the outcome in its line. `html` comes from the desk, which has escaped it. */
function tell(className, html, title) {
  const line = find("#outcome");
  line.className = className;
  line.innerHTML = html;
  if (title) document.title = title + " – Tautline desk";
  announce();
}

let quiet = 0;
function announce(text) {
  clearTimeout(quiet);
  quiet = setTimeout(() => {
    find("#live").textContent = text ?? find("#outcome").textContent.trim();
  }, QUIET);
}

// ---- Words that were not understood ------------------------------------------------------------------

const mend = find("#mend");
const phrases = () => all("input[name=ignored]", mend).map((input) => input.value);
/** Phrases that are ignored at the teacher's wish. */
let ignored = phrases();
/** The question before the last change that a button made. */
let before = find("input[name=before]", mend)?.value ?? "";
/** The text that the buttons belong to. */
let offered = question.defaultValue;

/** Brings the buttons up to the text. */
function offer(fresh, text) {
  const here = mend.contains(document.activeElement);
  mend.replaceChildren(...fresh.childNodes);
  mend.hidden = fresh.hidden;
  offered = text;
  ignored = phrases();
  // The button that was pressed is gone; what comes next is at hand.
  if (here) (find("button", mend) ?? question).focus();
}

mend.addEventListener("click", (event) => {
  const button = event.target.closest("button");
  if (!button) return;
  event.preventDefault();
  if (button.name === "ignore") {
    ignored.push(button.value);
  } else if (button.name === "heed") {
    ignored = ignored.filter((phrase) => phrase !== button.value);
  } else if (button.name === "undo") {
    question.value = before;
    before = "";
  } else if (question.value === offered) {
    before = question.value;
    question.setRangeText(button.dataset.words, Number(button.dataset.start), Number(button.dataset.end), "preserve");
  }
  soon();
  work();
});

// ---- The numbers of the question ------------------------------------------------------------------------

/** A number that was changed while its question was still on the way. */
let waiting = null;

const inputs = () => all("input", numbers);

/** Brings the inputs up to the text, without disturbing the one that is being written in. */
function follow(fresh, text) {
  const had = inputs(), has = all("input", fresh);
  const here = had.indexOf(document.activeElement);
  const same = had.length === has.length;
  if (same) {
    had.forEach((input, i) => {
      input.dataset.start = has[i].dataset.start;
      input.dataset.end = has[i].dataset.end;
      const row = input.closest("li"), now = has[i].closest("li");
      for (const part of ["label", ".unit"]) find(part, row).textContent = find(part, now).textContent;
      if (i !== here && !waiting) {
        input.value = has[i].value;
        blame(input, "");
      }
    });
  } else {
    numbers.replaceChildren(...fresh.childNodes);
    prepare();
    inputs()[here]?.focus();
  }
  numbers.hidden = fresh.hidden;
  numbered = text;
  if (waiting) {
    const { place, value } = waiting;
    waiting = null;
    const input = same ? inputs()[place] : null;
    if (input) {
      input.value = value;
      change(input);
    }
  }
}

/** Puts a changed number into the question, where it stands. */
function change(input) {
  const value = input.value.trim();
  const why = fault(value);
  blame(input, why);
  if (why) return;
  if (question.value !== numbered) {
    waiting = { place: inputs().indexOf(input), value };
    return;
  }
  before = "";
  const start = Number(input.dataset.start), end = Number(input.dataset.end);
  const longer = value.length - (end - start);
  question.setRangeText(value, start, end, "preserve");
  for (const other of inputs()) {
    const from = Number(other.dataset.start);
    if (from >= start) other.dataset.end = Number(other.dataset.end) + longer;
    if (from > start) other.dataset.start = from + longer;
  }
  numbered = question.value;
  soon();
}

const NUMBER = /^(\d{1,3}([,\u2009\u202f]\d{3})+|\d+)(\.\d+|\/\d+)?$/;

/** The rules of the desk's own `numbers.rs`, so that a slip is explained at once. */
function fault(value) {
  if (value === "") return "Write a number here. The question keeps the last one until you do.";
  if (value.length > 15) return "Write at most 15 characters.";
  if (/\/0+$/.test(value)) return "A fraction can't have 0 below the line.";
  if (NUMBER.test(value)) return "";
  if (NUMBER.test(value.replace(",", "."))) return "Write the decimal point as a dot, such as 0.75.";
  return "Write a number without a sign, such as 1200, 0.75 or 3/4.";
}

function blame(input, why) {
  const line = find(".fault", input.closest("li"));
  if (line.textContent === why) return;
  line.textContent = why;
  if (why) {
    input.setAttribute("aria-invalid", "true");
    announce(why);
  } else {
    input.removeAttribute("aria-invalid");
  }
}

/** One more or one less in the second figure of a whole number, in the last place of a decimal. */
function step(input, direction) {
  const text = input.value.trim().replace(/[,\u2009\u202f]/g, "");
  if (!/^\d+(\.\d+)?$/.test(text)) return;
  const [whole, part = ""] = text.split(".");
  const size = part ? 1n : 10n ** BigInt(Math.max(0, whole.length - 2));
  const sum = BigInt(whole + part) + BigInt(direction) * size;
  const figures = (sum < 0n ? 0n : sum).toString().padStart(part.length + 1, "0");
  const point = figures.length - part.length;
  input.value = part ? figures.slice(0, point) + "." + figures.slice(point) : figures;
  change(input);
}

/** The buttons beside the inputs only work with this script, so it is what shows them. */
function prepare() {
  for (const button of all(".step", numbers)) button.hidden = false;
}

numbers.addEventListener("input", (event) => change(event.target));
numbers.addEventListener("keydown", (event) => {
  const direction = { ArrowUp: 1, ArrowDown: -1 }[event.key];
  if (direction && event.target.matches("input")) {
    event.preventDefault();
    step(event.target, direction);
  }
});
numbers.addEventListener("click", (event) => {
  const button = event.target.closest(".step");
  if (button) step(find("input", button.closest("li")), Number(button.dataset.step));
});

// ---- The form -------------------------------------------------------------------------------------------

question.addEventListener("input", () => {
  before = "";
  soon();
});
question.addEventListener("keydown", (event) => {
  if (event.key === "Enter" && (event.ctrlKey || event.metaKey)) work();
});
restore.addEventListener("click", () => {
  question.value = question.defaultValue;
  soon();
  question.focus();
});
ask.addEventListener("submit", (event) => {
  event.preventDefault();
  if (event.submitter?.id === "pdf") save();
  else work();
});

/** Fetches the page as PDF; should that fail, the question stays where it is. */
async function save() {
  try {
    const answer = await fetch("/pdf", { method: "POST", body: fields() });
    if (!answer.ok) return show(new DOMParser().parseFromString(await answer.text(), "text/html"), question.value);
    const link = document.createElement("a");
    link.href = URL.createObjectURL(await answer.blob());
    link.download = /filename="([^"]+)"/.exec(answer.headers.get("content-disposition") ?? "")?.[1] ?? "worked-page.pdf";
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
    announce("Saved as " + link.download + ".");
  } catch {
    unreachable();
  }
}

// ---- The shelf ------------------------------------------------------------------------------------------

const wanted = find("#find");
let search = 0;
wanted.addEventListener("input", () => {
  clearTimeout(search);
  search = setTimeout(async () => {
    try {
      const answer = await fetch("/shelf?" + new URLSearchParams({ find: wanted.value }));
      const list = find("#shelf-list", new DOMParser().parseFromString(await answer.text(), "text/html"));
      if (!list) return;
      for (const link of all("a", list)) {
        if (link.getAttribute("href") === location.pathname) link.setAttribute("aria-current", "page");
      }
      find("#shelf-list").replaceWith(list);
      const count = all("li", list).length;
      announce(count === 1 ? "1 question found." : count + " questions found.");
    } catch {
      unreachable();
    }
  }, PAUSE);
});

// ---- What belongs together lights up together -----------------------------------------------------------

function tie(element) {
  const own = element.closest("[data-tie]") ?? element.closest(".ref")?.previousElementSibling;
  return own?.getAttribute("data-tie") ?? "";
}

function light(id) {
  for (const element of all(".lit", sheet)) element.classList.remove("lit");
  if (id) for (const element of all("[data-tie]", sheet)) element.classList.toggle("lit", element.getAttribute("data-tie") === id);
}

sheet.addEventListener("pointerover", (event) => light(tie(event.target)));
sheet.addEventListener("pointerleave", () => light(""));
sheet.addEventListener("focusin", (event) => light(tie(event.target)));
sheet.addEventListener("focusout", () => light(""));

// ---- Begin ----------------------------------------------------------------------------------------------

document.documentElement.classList.add("scripted");
prepare();
if (matchMedia("(max-width: 60rem)").matches) find("#shelf").open = false;
const open = find("#shelf-list [aria-current]"), list = find("#shelf-list");
if (open) list.scrollTop = open.offsetTop - list.clientHeight / 2;
const earlier = kept.get();
if (earlier !== null && earlier !== question.value && (location.pathname !== "/" || question.defaultValue === "")) {
  question.value = earlier;
}
if (question.value !== question.defaultValue) soon();
