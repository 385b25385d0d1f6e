// What the page knows and shows. It asks nothing but /api/v1 and its own files.
import { drawRule } from "./ruler.js";

const STALE_S = 2;
const CONNECTED_S = 1.9; // beats come every second: by the time a reading is old it is known who is silent
const TAIL_S = 30;
const at = (id) => document.getElementById(id);
const words = await (await fetch("/words.json")).json();
const say = (key, ...values) => values.reduce((text, value, i) => text.replaceAll(`{${i}}`, value), words[key] ?? key);

let status = null;
let measuredAt = null; // by this browser's own steady clock, in ms
let heardAt = performance.now();
let serverAhead = 0;
let trend = null;
let tail = [];

// Numbers never take the browser's own decimal mark: a stroke looks the same on every screen.
const fixed = (value, digits) => (value === null || value === undefined ? "\u2013" : value.toFixed(digits));
const up = (value, digits) => (Math.ceil(value * 10 ** digits - 1e-6) / 10 ** digits).toFixed(digits);
const serverNow = () => Date.now() + serverAhead;
const clock = (utc) => {
  const when = new Date(utc);
  const time = [when.getHours(), when.getMinutes(), when.getSeconds()].map((n) => String(n).padStart(2, "0")).join(":");
  return Date.now() - when < 864e5 / 2 ? time : `${when.getFullYear()}-${String(when.getMonth() + 1).padStart(2, "0")}-${String(when.getDate()).padStart(2, "0")} ${time}`;
};
const duration = (seconds) =>
  seconds < 120 ? `${Math.floor(seconds)} ${words["unit.s"]}` : seconds < 7200 ? `${Math.floor(seconds / 60)} ${words["unit.min"]}` : seconds < 172800 ? `${Math.floor(seconds / 3600)} ${words["unit.h"]}` : `${Math.floor(seconds / 86400)} ${words["unit.d"]}`;

// Live regions speak whenever they are written: write only what is new.
function put(id, text) {
  const element = typeof id === "string" ? at(id) : id;
  if (element.textContent !== text) {
    element.textContent = text;
  }
}

function hear(times) {
  heardAt = performance.now();
  serverAhead = Date.parse(times.utc) - Date.now();
  measuredAt = times.age_s === null ? null : heardAt - 1e3 * times.age_s;
}

function standing(kind) {
  return status.alarms.some((alarm) => alarm.kind === kind && alarm.stands);
}

function show() {
  const { stroke, band, strike } = status;
  const over = stroke.verdict === "over-stroke" || standing("over-stroke");
  const strikes = strike.found || standing("strike");
  put("feeder", status.feeder.name);
  put("verdict", stroke.pp_mm === null && stroke.verdict === "unmeasurable" ? `${say("verdict.unmeasurable")}: ${stroke.reason}` : say(`verdict.${stroke.verdict}`));
  put("mm", fixed(stroke.pp_mm, 3));
  put("inch", fixed(stroke.pp_in, 4));
  put("mm-doubt", stroke.uncertainty_mm === null ? "" : `\u00b1 ${up(stroke.uncertainty_mm, 3)}`);
  put("inch-doubt", stroke.uncertainty_in === null ? "" : `\u00b1 ${up(stroke.uncertainty_in, 4)}`);
  put("aside", stroke.pp_mm === null && stroke.at_least_mm !== null ? say("at-least", fixed(stroke.at_least_mm, 3), fixed(stroke.at_least_in, 4))
    : stroke.largest_mm !== null ? say("largest", fixed(stroke.largest_mm, 3), fixed(stroke.largest_in, 4), stroke.largest_place ?? "") : "");
  put("strike", strikes ? words["strike.found"] : strike.score === null ? words["strike.unjudged"] : words["strike.none"]);
  put("danger", over && strikes ? words["danger.both"] : over ? words["danger.over-stroke"] : strikes ? words["danger.strike"] : "");
  at("now").classList.toggle("wrong", over || ["low", "high"].includes(stroke.verdict));
  at("now").classList.toggle("strikes", strikes);
  at("now").classList.remove("waiting");
  document.title = `${stroke.pp_mm === null ? say(`verdict.${stroke.verdict}`) : `${fixed(stroke.pp_mm, 3)} mm`} \u00b7 ${status.feeder.name}`;
  put("store", status.store.trouble === null ? "" : say("store.trouble", status.store.trouble));
  put("drawing-says", [
    say("rule.says", fixed(band.low_mm, 3), fixed(band.high_mm, 3), fixed(band.low_in, 4), fixed(band.high_in, 4), fixed(band.limit_mm, 3), fixed(band.limit_in, 4)),
    stroke.pp_mm === null ? "" : say("rule.says-now", fixed(stroke.pp_mm, 3), fixed(stroke.pp_in, 4)),
  ].join(" "));
  showAlarms();
  draw();
}

function showAlarms() {
  const order = (alarm) => (alarm.stands ? 0 : 10) + ["high", "medium", "low"].indexOf(alarm.priority);
  const shown = status.alarms.filter((alarm) => alarm.state !== "normal").sort((one, other) => order(one) - order(other) || other.since_utc.localeCompare(one.since_utc));
  at("alarms-none").hidden = shown.some((alarm) => alarm.stands);
  const key = JSON.stringify(shown);
  const list = at("alarm-list");
  if (list.dataset.key === key) {
    return;
  }

  list.dataset.key = key;
  list.replaceChildren(...shown.map((alarm) => {
    const row = document.createElement("li");
    row.className = `${alarm.stands ? "stands " : ""}${alarm.priority}`;
    const said = document.createElement("p");
    said.className = "words";
    said.textContent = alarm.words || alarm.id;
    const life = document.createElement("p");
    life.className = "life";
    const until = alarm.until_utc === null ? "" : `, ${words["alarms.until"]} ${clock(alarm.until_utc)} ${words["alarms.by"]} ${alarm.by}`;
    life.textContent = `${words[`priority.${alarm.priority}`]} \u00b7 ${say(`state.${alarm.state}`)} ${words["alarms.since"]} ${clock(alarm.since_utc)}${until}`;
    row.append(said, life);
    return row;
  }));
}

function age() {
  const now = performance.now();
  const seconds = measuredAt === null ? null : (now - measuredAt) / 1e3;
  const unheard = (now - heardAt) / 1e3;
  const stale = seconds === null || seconds > STALE_S;
  at("now").classList.toggle("stale", stale);
  at("drawing").classList.toggle("stale", stale);
  put("motion", stale || status === null ? words["motion.unknown"] : say(`motion.${status.motion}`));
  put("age", unheard > CONNECTED_S ? say("stale.connection", duration(unheard))
    : seconds === null ? words["stale.never"]
    : stale ? say("stale.sensor", duration(seconds)) : say("age", seconds.toFixed(1)));
}

function draw() {
  if (status !== null) {
    drawRule(at("drawing"), { status, trend, tail, spanS: Number(at("span").value), nowMs: serverNow(), say, duration });
  }
}

async function loadTrend() {
  if (document.hidden) {
    return;
  }

  const to = serverNow();
  const from = to - 1e3 * Number(at("span").value);
  const points = Math.max(60, Math.min(600, Math.floor(at("drawing").clientWidth / 2)));
  const answer = await fetch(`/api/v1/trend?from=${new Date(from).toISOString()}&to=${new Date(to).toISOString()}&points=${points}`);
  if (answer.ok) {
    trend = await answer.json();
    draw();
  }
}

const quietly = () => loadTrend().catch(() => { /* The stale reading already says that nothing answers. */ });

const live = new EventSource("/api/v1/live");
live.addEventListener("status", (event) => {
  status = JSON.parse(event.data);
  hear(status);
  if (status.stroke.pp_mm !== null && !status.stale) {
    const ms = Date.parse(status.measured_utc);
    tail = tail.filter((point) => point.ms !== ms && ms - point.ms < 1e3 * TAIL_S);
    tail.push({ ms, mm: status.stroke.pp_mm });
  }

  show();
  age();
});
live.addEventListener("beat", (event) => {
  hear(JSON.parse(event.data));
  age();
});
at("span").addEventListener("change", () => {
  trend = null;
  draw();
  quietly();
});
document.addEventListener("visibilitychange", quietly);
new ResizeObserver(draw).observe(at("drawing"));
setInterval(age, 250);
setInterval(quietly, 10000);
quietly();
