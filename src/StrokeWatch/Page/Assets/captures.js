// The view "Captures": the list; one looked at as a whole; what the measurement makes of it; the file to download.
import { ask, at, clock, duration, fixed, make, put, say } from "./words.js";
import { whileSeen } from "./views.js";
import { axis, ink, plotIn } from "./plot.js";
import { act, may, onSession, session, sheet } from "./access.js";

const DASHES = { x: [], y: [2, 3], z: [8, 4] };
const COLOURS = ["trace", "ink", "soft"];
let look = null;
let chosen = null;

const path = (what, name) => `/api/v1/captures/${what}?name=${encodeURIComponent(name)}`;
const size = (bytes) => (bytes < 1e6 ? `${Math.ceil(bytes / 1e3)} kB` : `${(bytes / 1e6).toFixed(1)} MB`);

const plot = plotIn(at("capture-plot"), () => ({
  scales: { x: { time: false }, y: {} },
  axes: [
    axis({ label: look.rate_hz === null ? say("captures.samples") : say("captures.seconds"), size: 30 }),
    axis({ label: say("wave.acceleration"), size: 56, values: (_, splits) => splits.map((v) => v.toFixed(0)) }),
  ],
  series: [{}, ...look.axes.flatMap((one, i) => [0, 1].map(() => ({ stroke: ink(COLOURS[i % 3]), width: 1, dash: DASHES[one.axis], points: { show: false } })))],
  bands: look.axes.map((_, i) => ({ series: [2 * i + 2, 2 * i + 1], fill: `color-mix(in srgb, ${ink(COLOURS[i % 3])} 35%, transparent)` })),
  cursor: { show: false },
}));

function button(text, name, act) {
  const made = make("button", "", text);
  made.type = "button";
  made.setAttribute("aria-label", say("captures.of", text, name));
  made.addEventListener("click", act);
  return made;
}

function row(one) {
  const file = make("a", "button", say("captures.file"));
  file.href = path("file", one.name);
  file.setAttribute("download", one.name);
  file.setAttribute("aria-label", say("captures.of", say("captures.file"), one.name));
  return make("li", "",
    make("p", "words", one.alarms.length > 0 ? say("captures.alarm", one.alarms.join(", "), clock(one.from_utc ?? one.written_utc)) : one.name),
    make("p", "life", `${one.alarms.length > 0 ? `${one.name} \u00b7 ` : ""}${clock(one.written_utc)} \u00b7 ${size(one.size_bytes)}${one.length_s === null ? "" : ` \u00b7 ${fixed(one.length_s, 1)} ${say("unit.s")}`}${one.lost_samples > 0 ? ` \u00b7 ${say("captures.lost", String(one.lost_samples))}` : ""}`),
    one.keep === "no" ? null : make("p", "life", one.keep === "always" ? say("captures.always") : say("captures.kept", one.keep_words ?? "")),
    make("div", "tools", button(say("captures.look"), one.name, () => show(one.name, false)), button(say("captures.replay"), one.name, () => show(one.name, true)), file, keeping(one)));
}

// Whoever may not keep captures is not shown how.
function keeping(one) {
  if (one.keep === "always" || session === null || !session.possible || (session.signed_in && !may("keep-capture"))) {
    return null;
  }

  const keep = one.keep === "no";
  const made = button(keep ? say("captures.keep") : say("captures.release"), one.name, async () => {
    made.disabled = true;
    try {
      const given = keep ? await reason(one.name) : {};
      if (given !== null) {
        await act(`/api/v1/captures/${keep ? "keep" : "release"}`, { name: one.name, ...given });
        at("capture-list").dataset.key = "";
        put("captures-trouble", "");
        made.blur();
        await list();
      }
    } catch (wrong) {
      put("captures-trouble", wrong instanceof TypeError ? say("access.unheard") : wrong.message);
    } finally {
      made.disabled = false;
    }
  });
  return made;
}

function reason(name) {
  return sheet(say("captures.keep"), (made, settle) => {
    const input = make("input", "");
    Object.assign(input, { id: "keep-reason", type: "text", maxLength: 200 });
    const label = make("label", "", say("alarm-do.reason"));
    label.htmlFor = input.id;
    const plain = (text, className, done) => {
      const one = make("button", className, text);
      one.type = "button";
      one.addEventListener("click", done);
      return one;
    };
    made.append(make("p", "about", name), make("p", "note", say("captures.keep-note")), label, input,
      make("div", "row", plain(say("captures.keep"), "main", () => settle({ reason: input.value })), plain(say("access.not-now"), "", () => settle(null))));
  });
}

async function show(name, replay) {
  chosen = name;
  at("capture").hidden = false;
  put("capture-name", name);
  put("capture-says", say("captures.reading"));
  at("capture-result").replaceChildren();
  at("capture-plot").hidden = true;
  at("capture").scrollIntoView({ block: "nearest" });
  at("capture-name").focus({ preventScroll: true });
  try {
    if (replay) {
      const result = await ask(path("replay", name));
      if (chosen === name) {
        put("capture-says", "");
        at("capture-result").replaceChildren(...told(result, name));
      }

      return;
    }

    const whole = await ask(`${path("look", name)}&points=${Math.max(200, Math.min(900, Math.floor(at("captures").clientWidth / 2)))}`);
    if (chosen !== name) {
      return;
    }

    look = whole;
    at("capture-plot").hidden = false;
    put("capture-says", say("captures.says", String(look.samples), look.rate_hz === null ? "\u2013" : fixed(look.rate_hz, 0), look.length_s === null ? "\u2013" : duration(look.length_s),
      look.axes.map((one) => say("wave.range", one.sensor ? `${one.sensor} ${one.axis}` : one.axis, fixed(Math.min(...one.least_m_s2), 1), fixed(Math.max(...one.most_m_s2), 1))).join(", ")));
    const columns = look.axes[0].least_m_s2.length;
    plot.show([Array.from({ length: columns }, (_, i) => i * (look.column_s ?? look.samples_per_column)), ...look.axes.flatMap((one) => [one.least_m_s2, one.most_m_s2])], true);
  } catch (trouble) {
    put("capture-says", say("trouble", trouble.message));
  }
}

/** What a replay tells, in words; the whole document can be downloaded. */
function told(result, name) {
  const { stroke, strike } = result;
  const inch = (mm) => fixed(mm / 25.4, 4);
  const lines = [
    make("p", "words", say(`verdict.${stroke.verdict}`)),
    make("p", "", stroke.pp_mm === null ? stroke.reason ?? "" : say("captures.stroke", fixed(stroke.pp_mm, 3), inch(stroke.pp_mm), fixed(stroke.uncertainty_mm, 3), fixed(stroke.min_pp_mm, 3), fixed(stroke.max_pp_mm, 3))),
    make("p", "", strike.found ? say("strike.found") : strike.score_max === null ? say("strike.unjudged") : strike.reason === null ? say("strike.none") : say("strike.possible")),
  ];
  for (const finding of result.findings) {
    lines.push(make("article", "finding", make("h4", "", say(`finding.${finding.id}`)), make("p", "because", finding.because.join(" ")), make("h5", "", say("check.first")), make("ol", "", ...finding.check_first.map((step) => make("li", "", step)))));
  }

  const whole = make("a", "button", say("captures.document"));
  whole.href = path("replay", name);
  whole.setAttribute("download", `${name}.json`);
  lines.push(make("p", "tools", whole));
  return lines;
}

async function list() {
  const all = await ask("/api/v1/captures");
  put("captures-none", all.reason !== null ? say("captures.no-folder") : all.captures.length === 0 ? say("captures.none") : all.more ? say("captures.more", String(all.captures.length)) : "");
  const key = JSON.stringify(all.captures);
  if (at("capture-list").dataset.key !== key && !at("capture-list").contains(document.activeElement)) {
    at("capture-list").dataset.key = key;
    at("capture-list").replaceChildren(...all.captures.map(row));
  }
}

const again = whileSeen("captures", 10, list, (trouble) => put("captures-trouble", say("trouble", trouble.message)));
onSession(() => {
  at("capture-list").dataset.key = "";
  again();
});
