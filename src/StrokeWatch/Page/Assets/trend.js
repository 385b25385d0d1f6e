// The view "Trend": the stroke from minutes to a year, smallest and largest of each column, against band and limit.
import { ask, at, clock, duration, fixed, make, put, say } from "./words.js";
import { onStatus, serverNow, status } from "./live.js";
import { onShow, whileSeen } from "./views.js";
import { hatch, inchScale, ink, lengthAxes, plotIn, timeAxis } from "./plot.js";

const ROWS = 24;
let spanS = 3600;
let until = null; // null: until now
let shown = null;

const box = at("trend-plot");
const inch = (mm) => fixed(mm / 25.4, 4);
const both = (mm) => `${fixed(mm, 3)} mm (${inch(mm)} in)`;

function range(band) {
  const seen = (shown?.columns ?? []).flatMap((column) => [column.least_mm, column.most_mm]);
  const room = band.limit_mm - band.low_mm;
  const low = Math.max(0, Math.min(band.low_mm - 0.3 * room, ...seen));
  const high = Math.max(band.limit_mm + 0.15 * room, ...seen);
  return [low - 0.02 * (high - low), high + 0.02 * (high - low)];
}

function under(plot) {
  const { band } = status;
  const { left, top, width, height } = plot.bbox;
  const y = (mm) => plot.valToPos(mm, "mm", true);
  const context = plot.ctx;
  context.fillStyle = ink("band");
  context.fillRect(left, y(band.high_mm), width, y(band.low_mm) - y(band.high_mm));
  hatch(context, left, top, width, y(band.limit_mm) - top, ink("beyond"), 12);
  // The foot says where nothing was measured.
  const foot = 10 * devicePixelRatio;
  let end = plot.valToPos(plot.scales.x.min, "x", true);
  for (const column of [...shown.columns, null]) {
    const from = column === null ? left + width : plot.valToPos(start(column), "x", true);
    if (from - end > 1.5) {
      hatch(context, Math.max(left, end), top + height - foot, from - Math.max(left, end), foot, ink("soft"), 5);
    }

    end = column === null ? end : plot.valToPos(start(column) + shown.column_s, "x", true);
  }
}

function over(plot) {
  const { band } = status;
  const { left, top, width, height } = plot.bbox;
  const context = plot.ctx;
  const dpr = devicePixelRatio;
  context.save();
  context.beginPath();
  context.rect(left, top, width, height);
  context.clip();
  for (const column of shown.columns) {
    const x = plot.valToPos(start(column), "x", true);
    const [low, high] = [plot.valToPos(column.least_mm, "mm", true), plot.valToPos(column.most_mm, "mm", true)];
    context.fillStyle = ink(column.most_mm > band.limit_mm ? "wrong" : "trace");
    context.fillRect(x, high - dpr, Math.max(1.5 * dpr, plot.valToPos(start(column) + shown.column_s, "x", true) - x), low - high + 2 * dpr);
  }

  const line = (mm, colour, dash, thick, text) => {
    const y = plot.valToPos(mm, "mm", true);
    context.strokeStyle = ink(colour);
    context.lineWidth = thick * dpr;
    context.setLineDash(dash.map((part) => part * dpr));
    context.beginPath();
    context.moveTo(left, y);
    context.lineTo(left + width, y);
    context.stroke();
    context.font = `${13 * dpr}px system-ui, sans-serif`;
    context.textAlign = "left";
    context.textBaseline = "top";
    context.lineWidth = 4 * dpr;
    context.setLineDash([]);
    context.strokeStyle = ink("paper");
    context.strokeText(text, left + 6 * dpr, y + 4 * dpr);
    context.fillStyle = ink("ink");
    context.fillText(text, left + 6 * dpr, y + 4 * dpr);
  };
  line(band.limit_mm, "wrong", [9, 4], 2.5, `${say("rule.limit")} ${both(band.limit_mm)}`);
  const inches = width < 400 * dpr ? "" : ` (${inch(band.low_mm)}\u2013${inch(band.high_mm)} in)`;
  line(band.high_mm, "ink", [], 1, `${say("rule.band")} ${fixed(band.low_mm, 3)}\u2013${fixed(band.high_mm, 3)} mm${inches}`);
  context.beginPath();
  context.strokeStyle = ink("ink");
  context.lineWidth = dpr;
  context.moveTo(left, plot.valToPos(band.low_mm, "mm", true));
  context.lineTo(left + width, plot.valToPos(band.low_mm, "mm", true));
  context.stroke();
  context.restore();
}

const start = (column) => Date.parse(shown.from_utc) / 1e3 + column.start_s;

function read(plot) {
  const index = plot.cursor.idx;
  const column = index === null || index === undefined ? null : shown.columns[index];
  put("trend-read", column ? say("trend.column", clock(1e3 * start(column)), both(column.least_mm), both(column.most_mm), String(column.windows)) : "");
}

const plot = plotIn(box, (width) => ({
  padding: [8, 0, 0, 0],
  scales: {
    x: { time: true, range: () => [Date.parse(shown.from_utc) / 1e3, Date.parse(shown.to_utc) / 1e3] },
    mm: { range: () => range(status.band) },
    in: inchScale,
  },
  axes: [timeAxis(), ...lengthAxes(width)],
  series: [{}, { scale: "mm", paths: () => null, points: { show: false } }, { scale: "in", paths: () => null, points: { show: false } }],
  cursor: { y: false, points: { show: false }, drag: { setScale: false, x: true, y: false } },
  hooks: {
    drawAxes: [under],
    draw: [over],
    setCursor: [read],
    setSelect: [(self) => {
      if (self.select.width > 6) {
        const [from, to] = [self.posToVal(self.select.left, "x"), self.posToVal(self.select.left + self.select.width, "x")];
        self.setSelect({ left: 0, width: 0, top: 0, height: 0 }, false);
        [spanS, until] = [Math.max(60, to - from), 1e3 * to];
        at("trend-span").value = "";
        load().catch(failed);
      }
    }],
  },
}));

function numbers() {
  const each = Math.max(1, Math.ceil(shown.columns.length / ROWS));
  const rows = [];
  for (let i = 0; i < shown.columns.length; i += each) {
    const part = shown.columns.slice(i, i + each);
    const [least, most] = [Math.min(...part.map((c) => c.least_mm)), Math.max(...part.map((c) => c.most_mm))];
    rows.push(make("tr", "", make("th", "", clock(1e3 * start(part[0]))), ...[fixed(least, 3), fixed(most, 3), inch(least), inch(most), String(part.reduce((sum, c) => sum + c.windows, 0))].map((text) => make("td", "", text))));
    rows.at(-1).firstChild.scope = "row";
  }

  at("trend-rows").replaceChildren(...rows);
}

function show() {
  if (shown === null || status === null) {
    return;
  }

  plot.show([shown.columns.map((column) => start(column) + shown.column_s / 2), shown.columns.map((column) => column.most_mm), shown.columns.map(() => null)]);
  const [from, to] = [clock(shown.from_utc), clock(shown.to_utc)];
  const least = Math.min(...shown.columns.map((column) => column.least_mm));
  const most = Math.max(...shown.columns.map((column) => column.most_mm));
  const parts = Math.max(1, Math.round((Date.parse(shown.to_utc) - Date.parse(shown.from_utc)) / 1e3 / shown.column_s));
  put("trend-says", shown.columns.length === 0 ? say("trend.none", from, to)
    : say("trend.says", from, to, both(least), both(most), String(Math.floor(100 * Math.max(0, 1 - shown.columns.length / parts)))));
  put("trend-width", `${say("trend.width", duration(Math.max(1, Math.round(shown.column_s))))}${shown.gathered_from_utc === null ? "" : ` ${say("trend.gathered", clock(shown.gathered_from_utc))}`}`);
  at("trend-later").disabled = until === null;
  numbers();
}

async function load() {
  const to = until ?? serverNow();
  const points = Math.max(60, Math.min(1200, Math.floor(box.clientWidth / 2)));
  shown = await ask(`/api/v1/trend?from=${new Date(to - 1e3 * spanS).toISOString()}&to=${new Date(to).toISOString()}&points=${points}`);
  put("trend-trouble", "");
  show();
}

const failed = (trouble) => put("trend-trouble", say("trouble", trouble.message));
const move = (by) => {
  const to = (until ?? serverNow()) + by * 500 * spanS;
  until = to >= serverNow() ? null : to;
  load().catch(failed);
};

whileSeen("trend", 10, async () => (until === null || shown === null || shown.gathered_from_utc !== null ? load() : undefined), failed);
onShow("trend", (seen) => seen && show());
onStatus(() => shown !== null && box.firstChild === null && show());
at("trend-span").addEventListener("change", () => {
  spanS = Number(at("trend-span").value);
  load().catch(failed);
});
at("trend-earlier").addEventListener("click", () => move(-1));
at("trend-later").addEventListener("click", () => move(1));
