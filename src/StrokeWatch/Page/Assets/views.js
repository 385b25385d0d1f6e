// Which view is seen: the one that the address names after its #. Links are plain links, so that keys and history work by themselves.
const hearers = [];
const sections = [...document.querySelectorAll("main > section")];
const links = [...document.querySelectorAll("#views a")];
let seen = null;

/** The view that is seen. */
export const view = () => seen;

/** Calls with true when a view comes to be seen, with false when it no longer is. */
export function onShow(name, hear) {
  hearers.push({ name, hear });
  if (seen === name) {
    hear(true);
  }
}

/** Does something each so many seconds while a view is seen and the page itself is; trouble goes to `failed`. */
export function whileSeen(name, seconds, work, failed = () => {}) {
  let timer = null;
  let busy = false;
  const once = async () => {
    if (!busy && !document.hidden) {
      busy = true;
      await work().catch(failed).finally(() => { busy = false; });
    }
  };
  onShow(name, (shown) => {
    clearInterval(timer);
    if (shown) {
      once();
      timer = setInterval(once, 1e3 * seconds);
    }
  });
  document.addEventListener("visibilitychange", () => {
    if (seen === name) {
      once();
    }
  });
  return once;
}

/** Shows the link to a view that has something to show only now. */
export function reveal(name) {
  links.find((link) => link.hash === `#${name}`).parentElement.hidden = false;
}

function show(moved) {
  const asked = sections.find((section) => `#${section.id}` === location.hash) ?? sections[0];
  if (asked.id === seen) {
    return;
  }

  const before = seen;
  seen = asked.id;
  document.body.dataset.view = seen;
  for (const link of links) {
    if (link.hash === `#${seen}`) {
      link.setAttribute("aria-current", "page");
    } else {
      link.removeAttribute("aria-current");
    }
  }

  hearers.filter((one) => one.name === before).forEach((one) => one.hear(false));
  hearers.filter((one) => one.name === seen).forEach((one) => one.hear(true));
  if (moved) {
    scrollTo(0, 0);
    asked.focus({ preventScroll: true });
  }
}

addEventListener("hashchange", () => show(true));
show(false);
