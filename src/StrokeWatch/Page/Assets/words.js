// Words, numbers and instants as every part of the page writes them, and the small tools to write with.
const words = await (await fetch("/words.json")).json();

export const at = (id) => document.getElementById(id);
export const say = (key, ...values) => values.reduce((text, value, i) => text.replaceAll(`{${i}}`, value), words[key] ?? key);

// Numbers never take the browser's own decimal mark: a stroke looks the same on every screen.
export const fixed = (value, digits) => (value === null || value === undefined ? "\u2013" : value.toFixed(digits));
export const up = (value, digits) => (Math.ceil(value * 10 ** digits - 1e-6) / 10 ** digits).toFixed(digits);
const two = (n) => String(n).padStart(2, "0");

export const day = (utc) => {
  const when = new Date(utc);
  return `${when.getFullYear()}-${two(when.getMonth() + 1)}-${two(when.getDate())}`;
};

/** The time of day, with the date where it is not of the last twelve hours. */
export const clock = (utc) => {
  const when = new Date(utc);
  const time = [when.getHours(), when.getMinutes(), when.getSeconds()].map(two).join(":");
  return Math.abs(Date.now() - when) < 864e5 / 2 ? time : `${day(utc)} ${time}`;
};

export const duration = (seconds) =>
  seconds < 120 ? `${Math.floor(seconds)} ${say("unit.s")}` : seconds < 7200 ? `${Math.floor(seconds / 60)} ${say("unit.min")}` : seconds < 172800 ? `${Math.floor(seconds / 3600)} ${say("unit.h")}` : `${Math.floor(seconds / 86400)} ${say("unit.d")}`;

/** Writes a text where it is new: live regions speak whenever they are written. */
export function put(id, text) {
  const element = typeof id === "string" ? at(id) : id;
  if (element.textContent !== text) {
    element.textContent = text;
  }
}

/** Makes an element: its name, its class ("" for none), and what it holds, texts and elements. */
export function make(name, className, ...held) {
  const made = document.createElement(name);
  if (className) {
    made.className = className;
  }

  made.append(...held.filter((one) => one !== null));
  return made;
}

/** Asks the API; gives the document, or throws what the answer said was wrong. */
export async function ask(path) {
  const answer = await fetch(path);
  const document = await answer.json();
  if (!answer.ok) {
    throw new Error(document.error ?? String(answer.status));
  }

  return document;
}
