// The view "Waveform": the last moment's acceleration, the path of the tray, and the orders of the drive.
import { ask, at, fixed, make, put, say } from "./words.js";
import { onShow, whileSeen } from "./views.js";
import { axis, ink, plotIn } from "./plot.js";

// Told apart by dashes first; colours only help.
const DASHES = { x: [], y: [2, 3], z: [8, 4] };
const COLOURS = { x: "trace", y: "soft", z: "ink" };
const SVG = "http://www.w3.org/2000/svg";
let sensor = null;
let wave = null;
let held = false;

const asked = () => (sensor === null ? "" : `sensor=${encodeURIComponent(sensor)}&`);

const wavePlot = plotIn(at("wave-plot"), () => ({
  scales: { x: { time: false }, y: {} },
  axes: [
    axis({ label: say("wave.time"), size: 30, values: (_, splits) => splits.map((v) => v.toFixed(0)) }),
    axis({ label: say("wave.acceleration"), size: 56, values: (_, splits) => splits.map((v) => v.toFixed(0)) }),
  ],
  series: [{}, ...wave.axes.flatMap((one) => [0, 1].map(() => ({ stroke: ink(COLOURS[one.axis]), width: 1.5, dash: DASHES[one.axis], points: { show: false } })))],
  cursor: { show: false },
}));

function showWave(anew) {
  const columns = wave.axes[0]?.least_m_s2.length ?? 0;
  put("wave-says", columns === 0 ? wave.reason ?? "" : say("wave.says", String(Math.round(1e3 * wave.length_s)), fixed(wave.rate_hz, 0),
    wave.axes.map((one) => say("wave.range", one.axis, fixed(Math.min(...one.least_m_s2), 1), fixed(Math.max(...one.most_m_s2), 1))).join(", ")));
  if (columns > 0) {
    const times = Array.from({ length: columns }, (_, i) => 1e3 * wave.column_s * (i - columns));
    const lines = wave.axes.flatMap((one) => [one.least_m_s2, one.most_m_s2]);
    wavePlot.show([times, ...lines], anew);
  }
}

function shape(name, attributes, text) {
  const made = document.createElementNS(SVG, name);
  Object.entries(attributes).forEach(([key, value]) => made.setAttribute(key, value));
  if (text !== undefined) {
    made.textContent = text;
  }

  return made;
}

/** One projection: two axes at equal scales, the line of action, the fundamental's ellipse dashed, the whole path drawn through. */
function project(svg, path, across, up, most) {
  const [one, other] = [path.axes.find((a) => a.axis === across), path.axes.find((a) => a.axis === up)];
  svg.closest("figure").hidden = !one || !other;
  if (!one || !other) {
    return;
  }

  const side = 300;
  const middle = side / 2;
  const scale = (middle - 34) / most;
  const point = (x, y) => `${(middle + scale * x).toFixed(1)} ${(middle - scale * y).toFixed(1)}`;
  const through = (key) => `M${one[key].map((x, i) => point(x, other[key][i])).join("L")}Z`;
  const norm = Math.hypot(one.direction, other.direction) || 1;
  const [dx, dy] = [0.97 * most * one.direction / norm, 0.97 * most * other.direction / norm];
  const step = 10 ** Math.floor(Math.log10(most));
  const parts = [
    shape("path", { class: "base", d: `M10 ${middle}H${side - 10}M${middle} 10V${side - 10}` }),
    shape("text", { x: side - 10, y: middle + 15, "text-anchor": "end" }, across),
    shape("text", { x: middle + 7, y: 20 }, up),
    shape("path", { class: "action", d: `M${point(-dx, -dy)}L${point(dx, dy)}` }),
    shape("path", { class: "whole", d: through("displacement_mm") }),
    shape("path", { class: "ellipse", d: through("fundamental_mm") }),
    shape("path", { class: "scale", d: `M14 ${side - 14}v-6m0 3h${(scale * step).toFixed(1)}m0 -3v6` }),
    shape("text", { x: 14, y: side - 26 }, `${step} mm (${(step / 25.4).toFixed(4)} in)`),
  ];
  svg.replaceChildren(svg.querySelector("title"), ...parts);
}

function showPath(path) {
  const flat = path.axes.flatMap((one) => one.displacement_mm.map(Math.abs));
  at("path-drawings").hidden = flat.length === 0;
  put("path-says", flat.length === 0 ? path.reason ?? "" : say("path.says", fixed(path.stroke_mm, 3), fixed(path.stroke_in, 4), fixed(path.frequency_hz, 2), ends(path)));
  if (flat.length > 0) {
    const most = Math.max(...flat, 1e-4);
    project(at("path-side"), path, "x", "z", most);
    project(at("path-top"), path, "x", "y", most);
    project(at("path-end"), path, "y", "z", most);
  }
}

const ends = (path) => path.axes.map((one) => say("path.axis", one.axis, fixed(Math.max(...one.displacement_mm) - Math.min(...one.displacement_mm), 3))).join(", ");

let orders = null;
const orderPlot = plotIn(at("order-plot"), () => ({
  scales: { x: { time: false, range: (_, __, most) => [0, most + 0.5] }, y: { distr: 3 } },
  axes: [axis({ label: say("orders.order"), size: 30, values: (_, splits) => splits.map((v) => (v % 1 === 0 ? String(v) : "")) }), axis({ label: say("orders.amplitude"), size: 64 })],
  series: [{}, { paths: () => null, points: { show: false } }],
  cursor: { show: false },
  hooks: {
    draw: [(plot) => {
      const { left, top, width, height } = plot.bbox;
      const context = plot.ctx;
      const dpr = devicePixelRatio;
      const noise = plot.valToPos(orders.noise_m_s2, "y", true);
      for (const one of orders.orders) {
        const [x, y] = [plot.valToPos(one.order, "x", true), plot.valToPos(Math.max(one.amplitude_m_s2, plot.scales.y.min), "y", true)];
        const whole = one.order % 1 === 0;
        context.fillStyle = ink(whole ? "trace" : "soft");
        context.fillRect(x - (whole ? 2 : 0.5) * dpr, y, (whole ? 4 : 1) * dpr, top + height - y);
      }

      if (noise > top && noise < top + height) {
        context.strokeStyle = ink("ink");
        context.setLineDash([5 * dpr, 4 * dpr]);
        context.lineWidth = dpr;
        context.beginPath();
        context.moveTo(left, noise);
        context.lineTo(left + width, noise);
        context.stroke();
        context.setLineDash([]);
        context.fillStyle = ink("ink");
        context.font = `${13 * dpr}px system-ui, sans-serif`;
        context.textAlign = "right";
        context.textBaseline = "bottom";
        context.fillText(say("orders.noise"), left + width - 4 * dpr, noise - 2 * dpr);
      }
    }],
  },
}));

function showOrders() {
  const whole = orders.orders.filter((one) => one.order % 1 === 0);
  put("orders-says", orders.orders.length === 0 ? orders.reason ?? "" : say("orders.says", fixed(orders.frequency_hz, 2)));
  at("order-rows").replaceChildren(...whole.slice(0, 12).map((one) => {
    const row = make("tr", "", make("th", "", String(one.order)), ...[fixed(one.frequency_hz, 1), fixed(one.amplitude_m_s2, 3), fixed(one.pp_mm, 4), fixed(one.pp_in, 6)].map((text) => make("td", "", text)));
    row.firstChild.scope = "row";
    return row;
  }));
  if (orders.orders.length > 0) {
    orderPlot.show([orders.orders.map((one) => one.order), orders.orders.map((one) => Math.max(one.amplitude_m_s2, 1e-4))]);
  }
}

function choose(sensors) {
  at("wave-sensors").hidden = sensors.length < 2;
  if (at("wave-sensor").options.length !== sensors.length) {
    at("wave-sensor").replaceChildren(...sensors.map((name) => new Option(name)));
  }
}

async function load() {
  if (held) {
    return;
  }

  const before = wave?.axes.length;
  wave = await ask(`/api/v1/waveform?${asked()}last_ms=${at("wave-length").value}&points=${Math.max(100, Math.min(900, at("wave-plot").clientWidth))}`);
  choose(wave.sensors);
  showWave(before !== wave.axes.length);
  showPath(await ask(`/api/v1/path?${asked()}`));
  orders = await ask(`/api/v1/orders?${asked()}`);
  showOrders();
  put("wave-trouble", "");
}

const again = whileSeen("waveform", 1, load, (trouble) => put("wave-trouble", say("trouble", trouble.message)));
onShow("waveform", (seen) => seen && wave !== null && showWave(true));
at("wave-length").addEventListener("change", again);
at("wave-sensor").addEventListener("change", () => {
  sensor = at("wave-sensor").value;
  again();
});
at("wave-hold").addEventListener("click", () => {
  held = !held;
  at("wave-hold").setAttribute("aria-pressed", String(held));
  put("wave-hold", held ? say("wave.go-on") : say("wave.hold"));
  again();
});
