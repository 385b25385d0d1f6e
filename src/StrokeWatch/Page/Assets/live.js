// What comes live: how it stands, and when anything was last heard, of the sensor and of the program.
const hearers = { status: [], beat: [] };
let measuredAt = null; // by this browser's own steady clock, in ms
let heardAt = performance.now();
let serverAhead = 0;

/** The newest status; null before the first. */
export let status = null;

/** The program's clock, in ms since 1970. */
export const serverNow = () => Date.now() + serverAhead;

/** How old the reading is, in seconds; null where there is none. */
export const readingAge = () => (measuredAt === null ? null : (performance.now() - measuredAt) / 1e3);

/** How long ago the program was heard, in seconds. */
export const unheard = () => (performance.now() - heardAt) / 1e3;

/** Tells of every status, and at once of the newest where there is one. */
export function onStatus(hear) {
  hearers.status.push(hear);
  if (status !== null) {
    hear(status);
  }
}

/** Tells that the program lives, each second, and of every status; at once where anything was heard. */
export function onBeat(hear) {
  hearers.beat.push(hear);
  if (status !== null) {
    hear();
  }
}

function take(times) {
  heardAt = performance.now();
  serverAhead = Date.parse(times.utc) - Date.now();
  measuredAt = times.age_s === null ? null : heardAt - 1e3 * times.age_s;
}

const events = new EventSource("/api/v1/live");
events.addEventListener("status", (event) => {
  status = JSON.parse(event.data);
  take(status);
  hearers.status.forEach((hear) => hear(status));
  hearers.beat.forEach((hear) => hear());
});
events.addEventListener("beat", (event) => {
  take(JSON.parse(event.data));
  hearers.beat.forEach((hear) => hear());
});
