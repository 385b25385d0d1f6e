// The view "Station": sensors, outputs, storage, and what the alarms asked of people.
import { ask, at, clock, duration, fixed, make, put, say } from "./words.js";
import { whileSeen } from "./views.js";

const count = (n) => (n === null ? "\u2013" : String(n).replace(/\B(?=(\d{3})+$)/g, "\u202f"));
const size = (bytes) => (bytes === null ? "\u2013" : bytes < 1e9 ? `${(bytes / 1e6).toFixed(1)} MB` : `${(bytes / 1e9).toFixed(1)} GB`);
const when = (utc) => (utc === null ? say("station.never") : clock(utc));

/** A list of facts; a fact that is amiss is marked by a word, not by colour. */
function facts(rows) {
  const list = make("dl", "figures");
  for (const [name, value, amiss] of rows) {
    list.append(make("div", amiss ? "amiss" : "", make("dt", "", name), make("dd", "", amiss ? `${value} \u2014 ${say("station.look")}` : value)));
  }

  return list;
}

function block(title, trouble, rows) {
  return make("article", trouble ? "block amiss" : "block", make("h4", "", title), trouble ? make("p", "trouble", trouble) : null, facts(rows));
}

const named = (sensor, i, all) => sensor.places.length > 0 ? sensor.places.join(", ") : all.length > 1 ? say("station.sensor-n", String(i + 1)) : say("station.sensor");

function sensor(one, i, all, time) {
  const off = one.measured_rate_hz === null || one.rate_hz === null ? 0 : Math.abs(one.measured_rate_hz / one.rate_hz - 1);
  const silent = one.age_s === null || one.age_s > 2;
  return block(named(one, i, all), silent ? (one.age_s === null ? say("stale.never") : say("station.silent", duration(one.age_s))) : time.stuck && all.length === 1 ? say("station.stuck") : null, [
    [say("station.rate"), one.rate_hz === null ? say("station.unknown") : `${fixed(one.rate_hz, 1)} Hz`, false],
    [say("station.measured-rate"), one.measured_rate_hz === null ? say("station.not-yet") : `${fixed(one.measured_rate_hz, 1)} Hz`, off > 0.02],
    [say("station.samples"), count(one.samples), false],
    [say("station.missing"), say("station.missing-in", count(one.missing_samples), count(one.gaps)), one.missing_samples > 0.001 * one.samples],
    [say("station.clipped"), count(one.clipped_samples), one.clipped_samples > 0],
    ...one.rejected.map(({ reason, count: n }) => [say(`reject.${reason}`), count(n), false]),
    [say("station.skipped"), count(one.skipped_bytes), false],
    [say("station.reopenings"), count(one.reopenings), false],
  ]);
}

const output = (one) => block(say(`output.${one.name}`), one.trouble, [
  [say("station.sent"), count(one.sent_rows), false],
  [say("station.held"), count(one.held_rows), false],
  [say("station.refused"), count(one.refused_rows), one.refused_rows > 0],
  [say("station.gone"), count(one.gone_rows), one.gone_rows > 0],
  [say("station.last-success"), when(one.last_success_utc), false],
]);

// Which of two states a relay is in is a word, never a colour.
const relay = (one) => block(say("output.relay"), one.trouble, [
  [say("station.line"), one.line, false],
  [say("station.relay-is"), one.energised === null ? say("station.unknown") : one.energised ? say("station.energised") : say("station.dropped-out"), one.energised !== true],
]);

const shelf = (one) => block(say("station.shelf"), one.trouble, [
  [say("station.shelf-n"), count(one.captures), false],
  [say("station.shelf-kept"), one.kept === null ? "\u2013" : say("station.shelf-of", count(one.kept), size(one.kept_bytes)), false],
  [say("station.size"), say("station.shelf-quota", size(one.size_bytes), size(one.quota_bytes)), false],
  [say("station.shelf-writing"), count(one.writing), false],
]);

const store = (one) => block(say("station.store"), one.trouble, [
  [say("station.state"), say(`store.${one.state}`), ["full", "trouble"].includes(one.state)],
  [say("station.last-write"), when(one.last_write_utc), false],
  [say("station.size"), size(one.size_bytes), false],
  [say("station.free"), size(one.free_bytes), one.free_bytes !== null && one.free_bytes < 2e8],
  [say("station.waiting"), count(one.waiting_rows), false],
  [say("station.dropped"), count(one.dropped_windows + one.dropped_notes), one.dropped_windows + one.dropped_notes > 0],
]);

const listed = (items, write) => (items.length === 0 ? say("station.nothing") : items.map(write).join("; "));

const alarms = (one) => block(say("station.alarms"), one.reason, [
  [say("station.announced"), one.announced === null ? "\u2013" : say("station.announced-n", count(one.announced), fixed(one.per_day, 1)), one.per_day > 150],
  [say("station.by-priority"), say("station.priorities", count(one.priorities.high), count(one.priorities.medium), count(one.priorities.low)), false],
  [say("station.chattering"), listed(one.chattering, (alarm) => `${alarm.alarm} (${fixed(alarm.index_per_s, 3)}/s)`), one.chattering.length > 0],
  [say("station.stale"), listed(one.stale, (alarm) => `${alarm.alarm} (${duration(alarm.stood_s)})`), one.stale.length > 0],
  [say("station.fleeting"), count(one.fleeting), false],
  [say("station.floods"), one.floods === null ? "\u2013" : say("station.floods-n", count(one.floods), fixed(100 * one.flood_share, 2)), one.flood_share > 0.01],
  [say("station.most"), listed(one.most_frequent, (alarm) => `${alarm.alarm} (${alarm.times})`), false],
  [say("station.unwritten"), count(one.unwritten_steps), one.unwritten_steps > 0],
]);

whileSeen("station", 3, async () => {
  const health = await ask("/api/v1/health");
  put("station-trouble", "");
  at("station-sensors").replaceChildren(...health.sensors.map((one, i, all) => sensor(one, i, all, health.time)));
  put("station-clock", health.time.clock_error_ppm === null ? say("station.clock-unknown") : health.time.stamps_used ? say("station.clock-stamps", fixed(health.time.clock_error_ppm, 0)) : say("station.clock", fixed(health.time.clock_error_ppm, 0)));
  const outputs = [...health.outputs.map(output), ...(health.relay === null ? [] : [relay(health.relay)])];
  at("station-outputs").replaceChildren(...(outputs.length === 0 ? [make("p", "", say("station.no-outputs"))] : outputs));
  at("station-store").replaceChildren(store(health.store), ...(health.captures === null ? [] : [shelf(health.captures)]));
  at("station-alarms").replaceChildren(alarms(health.alarms));
  put("station-page", say("station.page", count(health.page.followers), count(health.page.dropped_events)));
}, (trouble) => put("station-trouble", say("trouble", trouble.message)));
