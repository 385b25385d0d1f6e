// The view "Tune": the tuning session one question at a time. What is asked and where an answer leads is the program's; this only shows it.
import { ask, at, clock, day, fixed, make, put, say } from "./words.js";
import { act, button, may, onSession, session, sheet } from "./access.js";
import { onShow, reveal, whileSeen } from "./views.js";

const HANDS_ON = ["change", "bolts", "gap", "installed", "still-locked"];
const LOCKS = ["lock-out", "still-locked", "check-lock-out", "restart"];
const LABEL = 11; // lines of numbers begin with a label of so many columns
const IDLE_EVERY = 4;
let view = null;
let shown = "";
let turn = 0;
let looks = 0;

const box = make("div", "");
box.id = "session";
at("tune").append(box);

const mine = () => session?.signed_in === true && view.session?.who === session.name;

async function go(path, body) {
  box.querySelectorAll("button").forEach((one) => { one.disabled = true; });
  try {
    const told = await act(`/api/v1/tuning/${path}`, body);
    view = told ?? view;
    show(told === null);
  } catch (wrong) {
    await look();
    show(true);
    put(box.querySelector(".trouble"), wrong instanceof TypeError ? say("access.unheard") : wrong.message);
  }
}

const answer = (text) => go("answer", { turn: view.session.turn, answer: text });

/** A line of numbers becomes a label and what it is; all else stays a sentence. */
function lines(texts) {
  const parts = [];
  for (const text of texts) {
    const label = text.slice(0, LABEL).trimEnd();
    if (text.length > LABEL && text[LABEL - 1] === " " && text[LABEL] !== " " && /^[a-z][a-z0-9 ]*$/.test(label)) {
      if (parts.at(-1)?.tagName !== "DL") {
        parts.push(make("dl", "facts"));
      }

      parts.at(-1).append(make("dt", "", label), make("dd", "", text.slice(LABEL)));
    } else {
      parts.push(make("p", "", text));
    }
  }

  return parts;
}

function trouble(text) {
  const made = make("p", "trouble", text ?? "");
  made.setAttribute("role", "alert");
  return made;
}

function begin() {
  const open = view.open;
  const anew = async () => {
    if (open === null || await sheet(say("session.anew"), (made, settle) => made.append(
      make("p", "about", say("session.anew-says")),
      make("div", "row", button(say("session.anew"), () => settle(true), "main"), button(say("access.not-now"), () => settle(null)))))) {
      await go("start", open === null ? {} : { anew: true });
    }
  };
  return [
    make("p", "caution", say("session.lock-out")),
    make("p", "", say("session.about")),
    open === null ? null : make("p", "", say("session.open", `${day(open.started_utc)} ${clock(open.started_utc).slice(-8, -3)}`, open.who ?? say("session.nobody"))),
    trouble(null),
    make("div", "answers",
      open === null ? null : button(say("session.resume"), () => go("start", { resume: true }), "main"),
      button(open === null ? say("session.begin") : say("session.anew"), anew, open === null ? "main" : "")),
    session?.signed_in && !may("tune") ? make("p", "note", say("session.not-yours")) : null,
  ];
}

function measuring() {
  const left = make("p", "left");
  left.id = "session-left";
  const stroke = make("p", "stroke");
  stroke.id = "session-stroke";
  const words = make("div", "heard");
  words.id = "session-heard";
  words.setAttribute("role", "alert");
  return [left, stroke, words, trouble(null), mine() ? make("div", "answers", button(say("session.end"), () => answer("end"))) : null];
}

// Numbers that change each half second are written where they stand; nothing is made anew under a thumb.
function tick(now) {
  put("session-left", now.left_s === null ? say("session.begins") : say("session.left", String(Math.ceil(now.left_s))));
  put("session-stroke", now.pp_mm === null ? say("session.no-stroke") : `${fixed(now.pp_mm, 3)} mm  (${fixed(now.pp_in, 4)} in)`);
  const key = JSON.stringify(now.words);
  if (at("session-heard").dataset.key !== key) {
    at("session-heard").dataset.key = key;
    at("session-heard").replaceChildren(...now.words.map((text) => make("p", text.startsWith("STOP") ? "stop" : "do", text)));
  }
}

function typed(step) {
  const label = make("label", "", step.asks);
  const input = make("input", "");
  Object.assign(input, { id: "session-answer", type: "text", maxLength: 200, autocomplete: "off", autocapitalize: "none", spellcheck: false });
  label.htmlFor = input.id;
  const send = make("button", "main", say("session.go-on"));
  const form = make("form", "typed", label, input, send);
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    if (input.value.trim().length > 0 || step.empty_means === null) {
      answer(input.value);
    }
  });
  return [step.empty_means === null ? null : make("div", "answers", button(say("session.as-is", step.empty_means), () => answer(""), "main")), form];
}

function question({ step, said, refused, who }) {
  const heading = make("h3", "", step.title);
  heading.tabIndex = -1;
  // What to do comes first and its answers after it; what it rests on stands below, for whoever wants to know.
  const rests = step.text.filter((text) => text.startsWith("because "));
  const text = step.text.filter((one) => !rests.includes(one));
  const hands = HANDS_ON.includes(step.id) ? make("p", "caution", say("session.hands")) : null;
  return [
    hands, heading,
    ...said.map((one) => make("p", "said", one)),
    ...(LOCKS.includes(step.id) ? text.map((one) => make("p", "lock", one))
      : ["change", "cautions"].includes(step.id) ? text.map((one) => make("p", "point", one)) : lines(text)),
    trouble(refused),
    ...(!mine() ? others(who)
      : step.over ? [make("div", "answers", button(say("session.close"), () => go("leave"), "main"))]
      : step.choices.length > 0 ? [make("div", "answers", ...step.choices.map((choice) => button(choice.words, () => answer(choice.id), choice.usual || step.choices.length === 1 ? "main" : "")))]
      : typed(step)),
    rests.length === 0 ? null : make("h4", "", say("session.because")),
    ...rests.map((one) => make("p", "point", one.slice(LABEL))),
    step.explain === "" ? null : make("details", "", make("summary", "", say("session.why")), make("p", "", step.explain)),
    !mine() || step.over ? null : make("div", "row acts",
      step.can_go_back ? button(say("session.back"), () => answer("b")) : null,
      step.can_check ? button(say("session.checks"), () => answer("c")) : null,
      button(say("session.leave"), () => go("leave"))),
  ];
}

// Who looks on sees the same question, and may take it over where its owner has gone.
const others = (who) => [
  make("p", "note", say("session.elsewhere", who ?? say("session.nobody"))),
  session?.signed_in !== true || may("tune") ? make("div", "answers", button(say("session.take-over"), async () => {
    await go("leave");
    if (view.session === null && view.open !== null) {
      await go("start", { resume: true });
    }
  })) : null,
];

function show(anew = false) {
  const held = view?.session ?? null;
  const key = JSON.stringify([session, view?.possible, view?.open, held && { ...held, measuring: held.measuring !== null }]);
  if (view !== null && (anew || key !== shown)) {
    shown = key;
    box.classList.toggle("urgent", held?.step.urgent === true);
    box.replaceChildren(...(!view.possible ? [make("p", "", say("session.impossible", view.reason))]
      : held === null ? begin()
      : held.measuring !== null ? measuring()
      : question(held)).filter((one) => one !== null));
    if (held !== null && held.turn !== turn) {
      turn = held.turn;
      scrollTo(0, 0);
      box.querySelector("h3")?.focus({ preventScroll: true });
    }
  }

  if (held !== null && held.measuring !== null) {
    tick(held.measuring);
  }
}

async function look() {
  view = await ask("/api/v1/tuning");
}

const again = whileSeen("tune", 1, async () => {
  // What nobody works on changes seldom.
  looks += 1;
  if (view === null || view.session !== null || looks % IDLE_EVERY === 0) {
    await look();
    show();
  }
});
onShow("tune", (seen) => {
  looks = IDLE_EVERY - 1;
  if (seen) {
    again();
  }
});
onSession((now) => {
  if (now.possible) {
    reveal("tune");
  }

  show();
});
