// Who is signed in, and what may be done to alarms. What is done needs the page's own header, which no other site can send.
import { at, clock, make, put, say } from "./words.js";
import { onStatus, status } from "./live.js";
import { onRow } from "./alarms.js";

const LOOK_S = 60;
const hearers = [];

/** Who is signed in; null before it is known. */
export let session = null;

/** Says whether whoever is signed in may do something. */
export const may = (right) => session !== null && session.may.includes(right);

/** Tells whenever somebody has signed in or out. */
export function onSession(hear) {
  hearers.push(hear);
  if (session !== null) {
    hear(session);
  }
}

function take(found) {
  const changed = JSON.stringify(found) !== JSON.stringify(session);
  session = found;
  if (changed) {
    show();
    hearers.forEach((hear) => hear(session));
  }
}

async function look() {
  const answer = await fetch("/api/v1/session");
  if (answer.ok) {
    take(await answer.json());
  }
}

async function send(path, body) {
  return fetch(path, { method: "POST", headers: { "X-StrokeWatch": "1", "Content-Type": "application/json" }, body: JSON.stringify(body) });
}

/** Does something; who is not signed in, or no longer, is asked to first. Gives the document, null where signing in was given up, or throws what was wrong. */
export async function act(path, body = {}) {
  if (session?.signed_in !== true && !(await signIn())) {
    return null;
  }

  let answer = await send(path, body);
  if (answer.status === 401) {
    await look();
    if (!(await signIn(say("access.ended")))) {
      return null;
    }

    answer = await send(path, body);
  }

  const document = await answer.json();
  if (!answer.ok) {
    throw new Error(document.error ?? String(answer.status));
  }

  return document;
}

/** A button for wet gloves. */
export function button(text, done, className = "") {
  const made = make("button", className, text);
  made.type = "button";
  made.addEventListener("click", done);
  return made;
}

// A sheet over the page must not hide that the feeder is to be stopped.
const dangers = [];
onStatus(() => dangers.forEach((one) => put(one, at("danger").textContent)));

/** Asks something on a sheet over the page; gives what `fill` settles it with, null where it is closed. */
export function sheet(title, fill) {
  return new Promise((settle) => {
    const danger = make("p", "sheet-danger", at("danger").textContent);
    danger.setAttribute("role", "alert");
    const heading = make("h2", "", title);
    heading.id = "sheet-title";
    const made = make("dialog", "sheet", danger, heading);
    made.setAttribute("aria-labelledby", heading.id);
    let result = null;
    fill(made, (value) => {
      result = value;
      made.close();
    });
    made.addEventListener("close", () => {
      dangers.splice(dangers.indexOf(danger), 1);
      made.remove();
      settle(result);
    });
    dangers.push(danger);
    document.body.append(made);
    made.showModal();
  });
}

function field(id, text, type, complete) {
  const input = make("input", "");
  Object.assign(input, { id, type, autocomplete: complete, required: true, maxLength: 200, autocapitalize: "none", spellcheck: false });
  const label = make("label", "", text);
  label.htmlFor = id;
  return [label, input];
}

/** Asks somebody to sign in; true once somebody is. */
export function signIn(why = "") {
  return sheet(say("access.sign-in"), (made, settle) => {
    const trouble = make("p", "trouble", why);
    trouble.setAttribute("role", "alert");
    const name = field("access-name", say("access.name"), "text", "username");
    const password = field("access-password", say("access.password"), "password", "current-password");
    const go = make("button", "main", say("access.sign-in"));
    const form = make("form", "", ...name, ...password, trouble, make("div", "row", go, button(say("access.not-now"), () => settle(false))));
    form.addEventListener("submit", async (event) => {
      event.preventDefault();
      go.disabled = true;
      put(trouble, say("access.looking"));
      try {
        const answer = await send("/api/v1/sign-in", { name: name[1].value, password: password[1].value });
        const document = await answer.json();
        if (answer.ok) {
          take(document);
          settle(true);
          return;
        }

        put(trouble, answer.status === 401 ? say("access.wrong")
          : answer.status === 429 ? say("access.wait", answer.headers.get("Retry-After") ?? "") : document.error);
        password[1].select();
      } catch {
        put(trouble, say("access.unheard"));
      } finally {
        go.disabled = false;
      }
    });
    made.append(form);
  }).then((signed) => signed === true);
}

async function signOut() {
  const answer = await send("/api/v1/sign-out", {});
  if (answer.ok) {
    take(await answer.json());
  }
}

const role = () => (session.role === "operator" ? say("access.operator") : session.role === "technician" ? say("access.technician") : say("access.engineer"));

function who() {
  return sheet(session.name, (made, settle) => {
    made.append(
      make("p", "", say("access.as", role())),
      make("p", "note", say("access.idle", String(session.idle_min))),
      make("div", "row", button(say("access.sign-out"), async () => settle(await signOut()), "main"), button(say("access.close"), () => settle(null))));
  });
}

function show() {
  at("alarms-note").hidden = session.possible;
  at("access").replaceChildren(...(!session.possible ? []
    : session.signed_in ? [button(`${session.name} \u00b7 ${role()}`, who)] : [button(say("access.sign-in"), () => signIn())]));
}

const REASONS = () => [say("alarm-do.reason-repair"), say("alarm-do.reason-part"), say("alarm-do.reason-sensor")];

/** Asks for a reason, and for a time where times are given; gives both. */
function ask(title, alarm, minutes, done) {
  return sheet(title, (made, settle) => {
    const chosen = { minutes: minutes[0] ?? null, reason: "" };
    const reason = make("input", "");
    Object.assign(reason, { id: "alarm-reason", type: "text", maxLength: 200 });
    const label = make("label", "", say("alarm-do.reason"));
    label.htmlFor = reason.id;
    const go = button("", () => settle(chosen), "main");
    const write = () => {
      put(go, done(chosen.minutes));
      go.disabled = chosen.reason.trim().length === 0;
      made.querySelectorAll(".times button").forEach((one) => one.setAttribute("aria-pressed", String(Number(one.dataset.minutes) === chosen.minutes)));
      made.querySelectorAll(".reasons button").forEach((one) => one.setAttribute("aria-pressed", String(one.textContent === chosen.reason)));
    };
    const times = minutes.map((one) => {
      const time = button(one < 120 ? say("alarm-do.minutes", String(one)) : say("alarm-do.hours", String(one / 60)), () => {
        chosen.minutes = one;
        write();
      });
      time.dataset.minutes = String(one);
      return time;
    });
    const reasons = REASONS().map((text) => button(text, () => {
      reason.value = text;
      chosen.reason = text;
      write();
    }));
    reason.addEventListener("input", () => {
      chosen.reason = reason.value;
      write();
    });
    made.append(
      make("p", "about", alarm.words || alarm.id),
      times.length === 0 ? make("p", "note", say("alarm-do.service-note")) : make("div", "times", ...times),
      make("div", "reasons", ...reasons), label, reason,
      make("div", "row", go, button(say("access.not-now"), () => settle(null))));
    write();
  });
}

const times = () => [15, 30, 60, 240, 480, 720].filter((minutes) => may("shelve-longer") || minutes <= session.operators_shelve_min);

async function shelve(alarm) {
  if (!session.signed_in && !(await signIn())) {
    return null;
  }

  const danger = alarm.priority === "high";
  return ask(say("alarm-do.shelve"), alarm, times().filter((minutes) => !danger || minutes <= 60), (minutes) => say("alarm-do.until", clock(Date.now() + 6e4 * minutes).slice(0, -3)));
}

async function service(alarm) {
  const asked = await ask(say("alarm-do.out"), alarm, [], () => say("alarm-do.out"));
  return asked === null ? null : { reason: asked.reason };
}

function choices(alarm) {
  const open = !session.signed_in;
  const masked = ["shelved", "out-of-service", "suppressed-by-design"].includes(alarm.state);
  return [
    !masked && alarm.state.endsWith("unacknowledged") && (open || may("acknowledge")) ? [say("alarm-do.acknowledge"), "acknowledge", () => ({}), "main"] : null,
    alarm.state === "latched-acknowledged" && (open || may("acknowledge")) ? [say("alarm-do.reset"), "reset", () => ({}), "main"] : null,
    alarm.state === "shelved" && (open || may("shelve")) ? [say("alarm-do.unshelve"), "unshelve", () => ({}), "main"] : null,
    alarm.state !== "shelved" && alarm.state !== "out-of-service" && (open || may("shelve")) ? [say("alarm-do.shelve"), "shelve", shelve, ""] : null,
    alarm.state !== "out-of-service" && may("out-of-service") ? [say("alarm-do.out"), "out-of-service", service, ""] : null,
    alarm.state === "out-of-service" && may("out-of-service") ? [say("alarm-do.back"), "return-to-service", () => ({}), "main"] : null,
  ].filter((choice) => choice !== null);
}

function dress(row, alarm) {
  if (session === null || !session.possible) {
    return;
  }

  const trouble = make("p", "trouble");
  trouble.setAttribute("role", "alert");
  const buttons = choices(alarm).map(([text, word, body, className]) => {
    const made = button(text, async () => {
      made.disabled = true;
      try {
        const given = await body(alarm);
        if (given !== null) {
          await act(`/api/v1/alarms/${alarm.id}/${word}`, given);
        }
      } catch (wrong) {
        put(trouble, wrong instanceof TypeError ? say("access.unheard") : wrong.message);
      } finally {
        made.disabled = false;
      }
    }, className);
    made.dataset.act = word;
    return made;
  });
  if (buttons.length > 0) {
    row.append(make("div", "row acts", ...buttons), trouble);
  }
}

onRow(dress);
onSession(() => at("alarm-list").querySelectorAll("li").forEach((row) => {
  const alarm = status?.alarms.find((one) => one.id === row.dataset.alarm);
  row.querySelectorAll(".acts, .trouble").forEach((one) => one.remove());
  if (alarm !== undefined) {
    dress(row, alarm);
  }
}));
look().catch(() => { /* The stale reading already says that nothing answers. */ });
setInterval(() => !document.hidden && look().catch(() => {}), 1e3 * LOOK_S);
document.addEventListener("visibilitychange", () => !document.hidden && look().catch(() => {}));
