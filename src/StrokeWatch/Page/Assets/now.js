// The view "Now", and what is seen above every view: danger, verdict, stroke, age.
import { at, duration, fixed, put, say, up } from "./words.js";
import { onBeat, onStatus, readingAge, serverNow, status, unheard } from "./live.js";
import { onShow, whileSeen } from "./views.js";
import { drawRule } from "./ruler.js";

const STALE_S = 1.7; // so that what is shown looks old before the sensor has been silent for two seconds
const CONNECTED_S = 1.6; // beats come every second: by the time a reading is old it is known who is silent
const TAIL_S = 30;
const POSSIBLE_S = 10; // single windows leave a strike open: what one left open is said for as long as an eye takes to come back
let trend = null;
let tail = [];
let possibleMs = -Infinity;

function show() {
  const { stroke, band, strike } = status;
  const standing = (kind) => status.alarms.some((alarm) => alarm.kind === kind && alarm.stands);
  const over = stroke.verdict === "over-stroke" || standing("over-stroke");
  const strikes = strike.found || standing("strike");
  put("feeder", status.feeder.name);
  put("mm", fixed(stroke.pp_mm, 3));
  put("inch", fixed(stroke.pp_in, 4));
  put("mm-doubt", stroke.uncertainty_mm === null ? "" : `\u00b1 ${up(stroke.uncertainty_mm, 3)}`);
  put("inch-doubt", stroke.uncertainty_in === null ? "" : `\u00b1 ${up(stroke.uncertainty_in, 4)}`);
  put("aside", stroke.pp_mm === null && stroke.at_least_mm !== null ? say("at-least", fixed(stroke.at_least_mm, 3), fixed(stroke.at_least_in, 4))
    : stroke.largest_mm !== null ? say("largest", fixed(stroke.largest_mm, 3), fixed(stroke.largest_in, 4), stroke.largest_place ?? "") : "");
  put("supply", status.supply.mains_v === null ? "" : say("supply", fixed(status.supply.mains_v, 1), status.supply.share_of_full === null ? "" : say("supply.share", fixed(100 * status.supply.share_of_full, 1)),
    status.supply.stroke_at_full_mm === null ? "" : say("supply.at-full", fixed(status.supply.stroke_at_full_mm, 3), fixed(status.supply.stroke_at_full_in, 4))));
  put("danger", over && strikes ? say("danger.both") : over ? say("danger.over-stroke") : strikes ? say("danger.strike") : "");
  put("glance-stroke", stroke.pp_mm === null ? "" : `${fixed(stroke.pp_mm, 3)} mm (${fixed(stroke.pp_in, 4)} in)`);
  at("now").classList.toggle("wrong", over || ["low", "high"].includes(stroke.verdict));
  at("now").classList.toggle("strikes", strikes);
  at("now").classList.remove("waiting");
  put("store-trouble", status.store.trouble === null ? "" : say("store.unwritten", status.store.trouble));
  put("drawing-says", [
    say("rule.says", fixed(band.low_mm, 3), fixed(band.high_mm, 3), fixed(band.low_in, 4), fixed(band.high_in, 4), fixed(band.limit_mm, 3), fixed(band.limit_in, 4)),
    stroke.pp_mm === null ? "" : say("rule.says-now", fixed(stroke.pp_mm, 3), fixed(stroke.pp_in, 4)),
  ].join(" "));
  draw();
}

/** What the last window was called holds for that window alone: once it is old nothing is called well, in words either. */
function judge(stale, never) {
  const { stroke, strike } = status;
  const strikes = strike.found || status.alarms.some((alarm) => alarm.kind === "strike" && alarm.stands);
  const called = never ? say("waiting") : stale ? say("verdict.old") : say(`verdict.${stroke.verdict}`);
  put("verdict", !stale && stroke.pp_mm === null && stroke.verdict === "unmeasurable" ? `${called}: ${stroke.reason}` : called);
  put("strike", strikes ? say("strike.found") : stale ? say("strike.old") : strike.score === null ? say("strike.unjudged")
    : performance.now() - possibleMs < 1e3 * POSSIBLE_S ? say("strike.possible") : say("strike.none"));
  put("glance-verdict", called);
  document.title = `${stale || stroke.pp_mm === null ? called : `${fixed(stroke.pp_mm, 3)} mm`} \u00b7 ${status.feeder.name}`;
}

function age() {
  const seconds = readingAge();
  const stale = seconds === null || seconds > STALE_S;
  if (status !== null) {
    judge(stale, seconds === null);
  }

  document.body.classList.toggle("stale", stale);
  at("now").classList.toggle("stale", stale);
  at("drawing").classList.toggle("stale", stale);
  put("motion", stale || status === null ? say("motion.unknown") : say(`motion.${status.motion}`));
  put("age", unheard() > CONNECTED_S ? say("stale.connection", duration(unheard()))
    : seconds === null ? say("stale.never")
    : stale ? say("stale.sensor", duration(seconds)) : say("age", seconds.toFixed(1)));
  put("glance-age", stale ? say("glance.old") : "");
}

function draw() {
  if (status !== null) {
    drawRule(at("drawing"), { status, trend, tail, spanS: Number(at("span").value), nowMs: serverNow(), say, duration });
  }
}

async function loadTrend() {
  const to = serverNow();
  const from = to - 1e3 * Number(at("span").value);
  const points = Math.max(60, Math.min(600, Math.floor(at("drawing").clientWidth / 2)));
  const answer = await fetch(`/api/v1/trend?from=${new Date(from).toISOString()}&to=${new Date(to).toISOString()}&points=${points}`);
  if (answer.ok) {
    trend = await answer.json();
    draw();
  }
}

onStatus((now) => {
  possibleMs = now.strike.possible ? performance.now() : possibleMs;
  if (now.stroke.pp_mm !== null && !now.stale) {
    const ms = Date.parse(now.measured_utc);
    tail = tail.filter((point) => point.ms !== ms && ms - point.ms < 1e3 * TAIL_S);
    tail.push({ ms, mm: now.stroke.pp_mm });
  }

  show();
});
onBeat(age);
// Where nothing answers, the stale reading already says so.
const again = whileSeen("now", 10, loadTrend);
at("span").addEventListener("change", () => {
  trend = null;
  draw();
  again();
});
onShow("now", (shown) => shown && draw());
new ResizeObserver(draw).observe(at("drawing"));
setInterval(age, 100);
