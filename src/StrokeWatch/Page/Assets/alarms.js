// The view "Alarms": what stands, what is over but not settled.
import { ask, at, clock, make, put, say } from "./words.js";
import { onStatus, serverNow } from "./live.js";
import { whileSeen } from "./views.js";

const SHOWN = 6; // steps of one alarm; all are in the list of steps below
const dressers = [];
let last = null;

/** Lets another part of the page add to each row of an alarm: it is given the row and the alarm whenever rows are made. */
export function onRow(dress) {
  dressers.push(dress);
  if (last !== null) {
    list(last, true);
  }
}

const order = (alarm) => (alarm.stands ? 0 : 10) + ["high", "medium", "low"].indexOf(alarm.priority);

function row(alarm) {
  const until = alarm.until_utc === null ? "" : `, ${say("alarms.until")} ${clock(alarm.until_utc)}`;
  const made = make("li", `${alarm.stands ? "stands " : ""}${alarm.priority}`,
    make("p", "words", alarm.words || alarm.id),
    make("p", "life", `${say(`priority.${alarm.priority}`)} \u00b7 ${say(`state.${alarm.state}`)} ${say("alarms.since")} ${clock(alarm.since_utc)} ${say("alarms.by")} ${alarm.by}${until}`));
  if (alarm.steps.length > 1) {
    made.append(make("ul", "steps", ...alarm.steps.slice(-SHOWN).map((step) => make("li", "", say("alarms.took", say(`act.${step.act}`), clock(step.utc), step.by)))));
  }

  made.dataset.alarm = alarm.id;
  dressers.forEach((dress) => dress(made, alarm));
  return made;
}

function list(status, anew) {
  last = status;
  const shown = status.alarms.filter((alarm) => alarm.state !== "normal").sort((one, other) => order(one) - order(other) || other.since_utc.localeCompare(one.since_utc));
  const standing = shown.filter((alarm) => alarm.stands);
  at("alarms-none").hidden = standing.length > 0;
  put("alarms-count", standing.length === 0 ? "" : String(standing.length));
  put("alarms-count-says", standing.length === 0 ? "" : standing.length === 1 ? say("alarms.one") : say("alarms.several", String(standing.length)));
  const key = JSON.stringify(shown);
  if (anew || at("alarm-list").dataset.key !== key) {
    at("alarm-list").dataset.key = key;
    at("alarm-list").replaceChildren(...shown.map(row));
  }
}

onStatus((status) => list(status, false));

const MOST = 200;
const PAGES = 20; // of 5000 steps, of a day; what is known is not asked for again
let known = [];

async function pastDay() {
  const begin = serverNow() - 864e5;
  // Steps that lie ahead were written before the clock was set back: then all is asked for anew.
  known = known.some((step) => Date.parse(step.utc) > serverNow() + 5e3) ? [] : known.filter((step) => Date.parse(step.utc) >= begin);
  for (let page = 0, more = true; more && page < PAGES; page += 1) {
    const last = known.at(-1);
    const past = await ask(`/api/v1/alarms?from=${last?.utc ?? new Date(begin).toISOString()}&most=5000`);
    const fresh = past.steps.filter((step) => last === undefined || step.number > last.number);
    known = known.concat(fresh);
    more = past.more && fresh.length > 0;
  }

  return known;
}

whileSeen("alarms", 5, async () => {
  const all = await pastDay();
  const steps = all.slice(-MOST).reverse();
  put("alarm-past-says", steps.length === 0 ? say("alarms.past-none") : all.length > MOST ? say("alarms.past-more", String(MOST), String(all.length)) : "");
  at("alarm-steps").closest("table").hidden = steps.length === 0;
  at("alarm-steps").replaceChildren(...steps.map((step) => {
    const made = make("tr", "", make("th", "", clock(step.utc)), make("td", "", step.alarm), make("td", "", say(`act.${step.act}`)), make("td", "", step.by));
    made.firstChild.scope = "row";
    return made;
  }));
}, (trouble) => put("alarm-past-says", say("trouble", trouble.message)));
