// What all plots have in common: the page's colours, axes of time and of length, and being made anew where colours or sizes change.
import uPlot from "./uPlot.esm.js";
import { day } from "./words.js";

export const MM_PER_INCH = 25.4;
const two = (n) => String(n).padStart(2, "0");

/** The page's own colour of a name. */
export const ink = (name) => getComputedStyle(document.documentElement).getPropertyValue(`--${name}`).trim();

/** How a plot's axis looks; what is given comes over it. */
export const axis = (more) => ({
  stroke: () => ink("soft"), font: "13px system-ui, sans-serif", labelFont: "13px system-ui, sans-serif", labelSize: 20, labelGap: 0,
  grid: { stroke: () => ink("line"), width: 0.5 }, ticks: { stroke: () => ink("ink"), width: 1, size: 5 }, ...more,
});

// Hours of the day by 24, dates as everywhere on the page.
const instant = (seconds, incr) => {
  const when = new Date(1e3 * seconds);
  const time = `${two(when.getHours())}:${two(when.getMinutes())}`;
  return incr < 60 ? `${time}:${two(when.getSeconds())}` : incr >= 86400 ? day(when).slice(5) : time;
};

export const timeAxis = () => axis({
  space: 70, size: 44,
  values: (_, splits, __, ___, incr) => splits.map((at, i) => {
    const text = instant(at, incr);
    const turned = incr < 86400 && (i === 0 || day(1e3 * at) !== day(1e3 * splits[i - 1]));
    return turned && splits.length > 1 && splits.at(-1) - splits[0] > 36000 ? `${text}\n${day(1e3 * at).slice(5)}` : text;
  }),
});

/** Axes of a length: millimetres left, inches of the same right. */
export const lengthAxes = (width) => [
  axis({ scale: "mm", label: "mm", size: 52, space: 34, values: (_, splits) => splits.map((v) => v.toFixed(Math.max(0, digits(splits)))) }),
  axis({
    scale: "in", side: 1, label: "in", size: width < 500 ? 50 : 58, space: 34, grid: { show: false },
    values: (_, splits) => splits.map((v) => v.toFixed(Math.max(3, digits(splits)))),
  }),
];

const digits = (splits) => (splits.length < 2 ? 3 : -Math.floor(Math.log10(Math.abs(splits[1] - splits[0])) + 1e-9));

/** The scale of inches that stands beside one of millimetres. */
export const inchScale = { from: "mm", range: (_, low, high) => [low / MM_PER_INCH, high / MM_PER_INCH] };

/** Keeps a plot in a box: `make(width, height)` gives its settings, or null where there is nothing to plot; `data` its numbers. */
export function plotIn(box, make) {
  let plot = null;
  let data = null;
  let size = "";
  const anew = () => {
    const [width, height] = [box.clientWidth, box.clientHeight];
    if (width < 80 || height < 60 || data === null) {
      return;
    }

    size = `${width} ${height}`;
    plot?.destroy();
    const settings = make(width, height);
    plot = settings === null ? null : new uPlot({ legend: { show: false }, ...settings, width, height }, data, box);
  };
  new ResizeObserver(() => `${box.clientWidth} ${box.clientHeight}` !== size && anew()).observe(box);
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", anew);
  return {
    /** Shows numbers; the settings are asked for anew where `afresh`. */
    show(numbers, afresh = false) {
      data = numbers;
      if (plot === null || afresh) {
        anew();
      } else {
        plot.setData(numbers);
      }
    },
  };
}

/** Hatches a part of a plot, so that what it means does not hang on a colour. */
export function hatch(context, left, top, width, height, colour, apart = 9) {
  context.save();
  context.beginPath();
  context.rect(left, top, width, height);
  context.clip();
  context.strokeStyle = colour;
  context.lineWidth = devicePixelRatio;
  context.beginPath();
  for (let x = left - height; x < left + width; x += apart * devicePixelRatio) {
    context.moveTo(x, top + height);
    context.lineTo(x + height, top);
  }

  context.stroke();
  context.restore();
}
