// What the audit of the pages asks a browser. The browser test evaluates this file in
// each page and then calls one function after another; each answers with a list of
// faults in words. Numbers such as 1.4.3 are success criteria of WCAG 2.2.
globalThis.audit = (() => {
  const all = (selector, within = document) => [...within.querySelectorAll(selector)];

  // name tells an element apart in a message.
  const name = (e) => {
    const id = e.id ? "#" + e.id : "";
    const cls = e.getAttribute("class") ? "." + e.getAttribute("class").trim().split(/\s+/).join(".") : "";
    const text = (e.textContent || e.value || "").trim().replace(/\s+/g, " ").slice(0, 40);
    return `<${e.tagName.toLowerCase()}${id}${cls}> “${text}”`;
  };

  const shown = (e) => {
    if (!e.checkVisibility({ opacityProperty: true, visibilityProperty: true, contentVisibilityAuto: true })) return false;
    const r = e.getBoundingClientRect();
    return r.width > 1 && r.height > 1;
  };
  const clipped = (e) => !!e.closest(".sr, .skip:not(:focus), .first") || getComputedStyle(e).clipPath !== "none" || (e.parentElement && getComputedStyle(e.parentElement).clipPath !== "none");

  // --- colours -------------------------------------------------------------
  const seen = new Map();
  const parse = (text) => {
    if (!seen.has(text)) {
      const n = (text.match(/[\d.]+%?/g) || []).map(parseFloat);
      const unit = text.startsWith("color(") ? 255 : 1;
      seen.set(text, text === "none" || n.length < 3 ? { r: 0, g: 0, b: 0, a: 0 } : { r: n[0] * unit, g: n[1] * unit, b: n[2] * unit, a: n.length > 3 ? n[3] : 1 });
    }
    return seen.get(text);
  };
  const over = (top, below) => ({ r: top.r * top.a + below.r * (1 - top.a), g: top.g * top.a + below.g * (1 - top.a), b: top.b * top.a + below.b * (1 - top.a), a: 1 });
  const light = (c) => {
    const part = (v) => (v /= 255) <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
    return 0.2126 * part(c.r) + 0.7152 * part(c.g) + 0.0722 * part(c.b);
  };
  const ratio = (a, b) => { const x = light(a), y = light(b); return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05); };

  const grounds = new Map();
  // ground is the colour an element stands on, with everything that is painted below.
  const ground = (e) => {
    if (!e) return { r: 255, g: 255, b: 255, a: 1 };
    if (!grounds.has(e)) {
      const own = parse(getComputedStyle(e).backgroundColor);
      grounds.set(e, own.a >= 1 ? own : over(own, ground(e.parentElement)));
    }
    return grounds.get(e);
  };
  const strengths = new Map();
  const strength = (e) => {
    if (!e) return 1;
    if (!strengths.has(e)) strengths.set(e, parseFloat(getComputedStyle(e).opacity) * strength(e.parentElement));
    return strengths.get(e);
  };
  // below is what a drawing has painted under a point before an element.
  const below = (svg, text, x, y) => {
    let ground0 = ground(svg);
    for (const shape of shapesOf(svg)) {
      if (!(shape.e.compareDocumentPosition(text) & Node.DOCUMENT_POSITION_FOLLOWING)) break;
      const b = shape.box;
      if (x < b.left || x > b.right || y < b.top || y > b.bottom) continue;
      if (!shape.e.isPointInFill(new DOMPoint(x, y).matrixTransform(shape.inverse))) continue;
      ground0 = over(shape.fill, ground0);
    }
    return ground0;
  };
  const drawn = new Map();
  const shapesOf = (svg) => {
    if (!drawn.has(svg)) {
      drawn.set(svg, all("rect, path, circle", svg).map((e) => {
        const s = getComputedStyle(e), fill = parse(s.fill);
        return { e, fill: { ...fill, a: fill.a * parseFloat(s.fillOpacity) * strength(e) }, box: e.getBoundingClientRect() };
      }).filter((s) => s.fill.a > 0.01 && s.box.width > 0).map((s) => ({ ...s, inverse: s.e.getScreenCTM().inverse() })));
    }
    return drawn.get(svg);
  };

  const least = (s) => {
    const px = parseFloat(s.fontSize), bold = parseInt(s.fontWeight, 10) >= 700;
    return px >= 24 || (bold && px >= 18.66) ? 3 : 4.5;
  };

  // 1.4.3: text has 4.5:1 on what it stands on, large text 3:1.
  const contrast = () => {
    grounds.clear(); strengths.clear(); drawn.clear();
    const faults = new Set();
    const fault = (e, what, got, want) => { if (got < want - 0.005) faults.add(`${what} ${name(e)} has ${got.toFixed(2)}:1, needs ${want}`); };
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    const done = new Set();
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      const e = node.parentElement;
      if (!node.data.trim() || done.has(e) || e.closest("script, style, title, desc, noscript, option, datalist") || !shown(e) || clipped(e)) continue;
      done.add(e);
      if (e.closest(":disabled")) continue;
      const s = getComputedStyle(e), svg = e.closest("svg");
      if (svg) {
        const b = e.getBoundingClientRect(), ink = parse(s.fill), y = b.top + b.height / 2;
        for (const x of [b.left + 2, b.left + b.width / 2, b.right - 2]) {
          const g = below(svg, e, x, y);
          fault(e, "text", ratio(over({ ...ink, a: ink.a * parseFloat(s.fillOpacity) * strength(e) }, g), g), least(s));
        }
        continue;
      }
      const ink = parse(s.color), g = ground(e);
      fault(e, "text", ratio(over({ ...ink, a: ink.a * strength(e) }, g), g), least(s));
    }
    for (const e of all("*")) {
      for (const at of ["::before", "::after"]) {
        const s = getComputedStyle(e, at);
        if (!/^"\s*[^"\s]/.test(s.content) || s.display === "none" || !shown(e)) continue;
        const ink = parse(s.color), g = over(parse(s.backgroundColor), ground(e));
        fault(e, at, ratio(over({ ...ink, a: ink.a * strength(e) * parseFloat(s.opacity) }, g), g), least(s));
      }
    }
    for (const e of all("input[placeholder], textarea[placeholder]")) {
      if (!shown(e)) continue;
      const s = getComputedStyle(e, "::placeholder"), ink = parse(s.color), g = ground(e);
      fault(e, "placeholder", ratio(over({ ...ink, a: ink.a * parseFloat(s.opacity) }, g), g), 4.5);
    }
    // 1.4.11: what shows where a control is has 3:1 against what is around it.
    for (const e of all("input:not([type=hidden]), select, textarea, button, .button")) {
      if (!shown(e) || clipped(e) || e.closest(":disabled")) continue;
      const s = getComputedStyle(e);
      if (parseFloat(s.borderTopWidth) === 0) continue; // a word to press: its text was looked at
      const around = ground(e.parentElement);
      const edge = Math.max(ratio(over(parse(s.borderTopColor), around), around), ratio(ground(e), around));
      fault(e, "border of", edge, 3);
    }
    return [...faults];
  };

  // --- space ---------------------------------------------------------------
  // 1.4.10: nothing sticks out sideways; wide tables move inside their own frame.
  const overflow = () => {
    const wide = document.documentElement.clientWidth;
    if (document.documentElement.scrollWidth <= wide) return [];
    const who = all("body *").filter((e) => e.getBoundingClientRect().right > wide + 1 && !e.closest(".scroll *"));
    return [`the page is ${document.documentElement.scrollWidth} px wide in ${wide}: ${who.slice(0, 4).map(name).join(", ")}`];
  };

  // 1.4.8: a line of running text has about seventy letters; more than that tire.
  const measure = () => all("p, li, dd, figcaption").filter((e) => {
    if (!shown(e) || e.closest("td, th, .live-values") || e.querySelector("p, li, div, table, svg, details, button, code")) return false;
    const range = document.createRange();
    range.selectNodeContents(e);
    const lines = new Set([...range.getClientRects()].map((r) => Math.round(r.bottom / 8))).size;
    return lines >= 4 && e.textContent.trim().replace(/\s+/g, " ").length / (lines - 0.5) > 90;
  }).map((e) => `the lines of ${name(e)} are long (1.4.8)`);

  const press = "a[href], button, input:not([type=hidden]), select, textarea, summary";
  // 2.5.8: what is pressed is 24 px large, or stands that far from its neighbours; 2.5.5:
  // buttons, fields and the way through the book are 44 px high on a phone.
  const targets = (high) => {
    const faults = [];
    // What a picture leads to can be chosen in the form beside it as well, which is the
    // exception of 2.5.8 for equivalent controls.
    const list = all(press).filter((e) => !e.closest("svg") && shown(e) && !clipped(e) && !e.closest(":disabled")).map((e) => {
      const s = getComputedStyle(e);
      return { e, r: e.getBoundingClientRect(), inline: s.display === "inline" && inSentence(e) };
    });
    for (const t of list) {
      if (high && t.e.matches("button, .button, input:not([type=radio], [type=checkbox]), select, textarea, nav.stages a, .toc > summary, .turn a") && t.r.height < 43.5) {
        faults.push(`${name(t.e)} is ${t.r.height.toFixed(0)} px high, wants 44 (2.5.5)`);
      }
      if (t.inline || (t.r.width >= 23.5 && t.r.height >= 23.5)) continue;
      const x = t.r.left + t.r.width / 2, y = t.r.top + t.r.height / 2;
      const near = list.find((o) => o !== t && !o.e.contains(t.e) && !t.e.contains(o.e) && reaches(o.r, x, y));
      if (near) faults.push(`${name(t.e)} is ${t.r.width.toFixed(0)} × ${t.r.height.toFixed(0)} px and near ${name(near.e)} (2.5.8)`);
    }
    return faults;
  };
  const inSentence = (e) => {
    for (const n of e.parentElement.childNodes) {
      if (n.nodeType === Node.TEXT_NODE && n.data.trim().length > 1) return true;
    }
    return false;
  };
  // reaches: a circle of 24 px about the point meets the rectangle, or the circle of a
  // target as small.
  const reaches = (r, x, y) => {
    const dx = Math.max(r.left - x, 0, x - r.right), dy = Math.max(r.top - y, 0, y - r.bottom);
    if (Math.hypot(dx, dy) < 11.5) return true;
    return (r.width < 23.5 || r.height < 23.5) && Math.hypot(r.left + r.width / 2 - x, r.top + r.height / 2 - y) < 23.5;
  };

  // --- structure -----------------------------------------------------------
  const structure = () => [headings, landmarks, references, labels, pictures, tables, lists, frames, order].flatMap((check) => check());

  // 1.3.1, 2.4.6: one first heading, and no level left out.
  const headings = () => {
    const faults = [], list = all("h1, h2, h3, h4, h5, h6").filter((h) => h.checkVisibility());
    if (list.filter((h) => h.tagName === "H1").length !== 1) faults.push(`${list.filter((h) => h.tagName === "H1").length} first headings`);
    let last = 0;
    for (const h of list) {
      const level = Number(h.tagName[1]);
      if (level > last + 1) faults.push(`${name(h)} follows level ${last}`);
      if (!h.textContent.trim()) faults.push(`${name(h)} is empty`);
      last = level;
    }
    return faults;
  };

  // 1.3.1, 2.4.1, 2.4.2, 3.1.1: language, title, landmarks, and a link that skips.
  const landmarks = () => {
    const faults = [], paper = document.querySelector(".book") !== null;
    if (!document.documentElement.lang) faults.push("no language");
    if (!document.title.trim()) faults.push("no title");
    if (all("main").length !== 1) faults.push(`${all("main").length} main parts`);
    const navs = all("nav").map((n) => n.getAttribute("aria-label") || n.getAttribute("aria-labelledby") || "");
    if (navs.includes("") || new Set(navs).size !== navs.length) faults.push(`navigations are named ${JSON.stringify(navs)}`);
    if (paper) return faults;
    for (const one of ["body > header", "body > footer"]) if (all(one).length !== 1) faults.push(`${all(one).length} of ${one}`);
    const skip = document.querySelector("body > a");
    if (!skip || !skip.matches(".skip") || document.querySelector(skip.hash)?.tagName !== "MAIN") faults.push("the first thing is no link to the main part");
    return faults;
  };

  // 4.1.2: what names another element finds it, and no name stands twice.
  const references = () => {
    const faults = [], ids = new Set();
    for (const e of all("[id]")) {
      if (ids.has(e.id)) faults.push(`id ${e.id} stands twice`);
      ids.add(e.id);
    }
    for (const key of ["aria-describedby", "aria-labelledby", "aria-controls", "aria-errormessage", "for", "list", "form", "headers"]) {
      for (const e of all(`[${key}]`)) {
        for (const id of e.getAttribute(key).split(/\s+/)) if (id && !ids.has(id)) faults.push(`${key} of ${name(e)} names ${id}, which is not there`);
      }
    }
    for (const a of all("a[href]")) {
      const to = new URL(a.href instanceof SVGAnimatedString ? a.href.baseVal : a.href, location.href);
      const id = decodeURIComponent(to.hash.slice(1));
      if (id && to.pathname === location.pathname && to.search === location.search && !ids.has(id)) faults.push(`${name(a)} leads to ${to.hash}, which is not there`);
    }
    return faults;
  };

  const called = (e) => {
    const by = (e.getAttribute("aria-labelledby") || "").split(/\s+/).map((id) => document.getElementById(id)?.textContent || "").join(" ");
    const own = e.labels ? [...e.labels].map((l) => l.textContent).join(" ") : "";
    return (e.getAttribute("aria-label") || by || own || e.getAttribute("title") || "").trim();
  };

  // 1.3.1, 2.4.4, 4.1.2: fields, buttons and links have names.
  const labels = () => {
    const faults = [];
    for (const e of all("input:not([type=hidden]), select, textarea, progress, meter")) if (!called(e)) faults.push(`${name(e)} [${e.name}] has no label`);
    for (const e of all("button, a[href], summary")) if (!(called(e) || e.textContent.trim())) faults.push(`${name(e)} has no name`);
    for (const e of all("a:not([href])")) faults.push(`${name(e)} leads nowhere`);
    for (const e of all("[role=region], section[aria-label], section[aria-labelledby], [role=group]")) if (!called(e)) faults.push(`${name(e)} has no name`);
    for (const e of all("fieldset")) if (!e.querySelector(":scope > legend")?.textContent.trim()) faults.push(`${name(e)} has no legend`);
    for (const e of all("[aria-hidden=true]")) {
      for (const inner of [e, ...all(press, e)]) if (inner.matches(press) && inner.tabIndex >= 0 && inner.getAttribute("tabindex") !== "-1") faults.push(`${name(inner)} is hidden from a reader and takes the focus`);
    }
    return faults;
  };

  // 1.1.1: a picture says what it shows, or is kept from a reader.
  const pictures = () => {
    const faults = [];
    for (const e of all("img")) if (!e.hasAttribute("alt")) faults.push(`${name(e)} has no text instead`);
    for (const e of all("svg")) {
      if (e.getAttribute("aria-hidden") === "true" || e.parentElement.closest("svg")) continue;
      const words = (e.querySelector(":scope > desc")?.textContent || "").trim().split(/\s+/).length;
      if (e.getAttribute("role") !== "img" || !called(e) || words < 3) faults.push(`picture ${e.querySelector("title")?.textContent}: role ${e.getAttribute("role")}, described in ${words} words`);
    }
    return faults;
  };

  // 1.3.1: a table has heads that say what they head, and a name.
  const tables = () => {
    const faults = [];
    for (const t of all("table")) {
      const heads = all("th", t);
      if (!heads.length) faults.push(`${name(t)} has no heads`);
      for (const h of heads) if (!/^(col|row|colgroup|rowgroup)$/.test(h.scope)) faults.push(`head ${name(h)} has no scope`);
      if (getComputedStyle(t).display !== "table" || all("tr", t).some((r) => getComputedStyle(r).display === "grid")) {
        if (t.getAttribute("role") !== "table" || all("tr:not([role])", t).length || all("td:not([role]), th:not([role])", t).length) faults.push(`${name(t)} is laid out otherwise and has lost its roles`);
      }
    }
    return faults;
  };

  const lists = () => {
    const faults = [];
    for (const l of all("ul, ol")) for (const c of l.children) if (!c.matches("li, script, template")) faults.push(`${name(c)} stands in a list`);
    for (const l of all("dl")) for (const c of l.children) if (!c.matches("dt, dd, div, script, template")) faults.push(`${name(c)} stands in a list of terms`);
    for (const e of all("li")) if (!e.parentElement.matches("ul, ol")) faults.push(`${name(e)} is in no list`);
    return faults;
  };

  // 2.1.1: what moves sideways takes the focus, so that keys can move it.
  const frames = () => {
    const faults = [];
    for (const e of all("body *")) {
      if (e.scrollWidth <= e.clientWidth + 1 || !/auto|scroll/.test(getComputedStyle(e).overflowX) || e.matches("textarea, input, select") || !shown(e)) continue;
      if (e.tabIndex < 0 && !e.querySelector(press)) faults.push(`${name(e)} moves sideways, but not by keys`);
    }
    return faults;
  };

  // 2.4.3: the order of the page is the order of the keys.
  const order = () => all("[tabindex]").filter((e) => e.tabIndex > 0).map((e) => `${name(e)} jumps the queue`);

  // --- moving --------------------------------------------------------------
  // 2.3.3: nothing moves by itself.
  const still = () => {
    const faults = document.getAnimations().map((a) => `${name(a.effect.target)} moves`);
    for (const e of all("*")) {
      const s = getComputedStyle(e);
      if (/[1-9]/.test(s.transitionDuration + s.animationDuration) || s.scrollBehavior === "smooth") faults.push(`${name(e)} would move`);
    }
    return faults;
  };

  // shift is how far the page jumped while it loaded.
  const shift = () => new Promise((answer) => {
    let sum = 0;
    const watch = new PerformanceObserver((list) => { for (const e of list.getEntries()) if (!e.hadRecentInput) sum += e.value; });
    watch.observe({ type: "layout-shift", buffered: true });
    requestAnimationFrame(() => setTimeout(() => answer(sum), 0));
  });

  // --- keys ----------------------------------------------------------------
  const stops = () => all("a[href], button, input:not([type=hidden]), select, textarea, summary, [tabindex]").filter((e) => e.tabIndex >= 0 && !e.disabled && e.checkVisibility({ visibilityProperty: true }) && !sameRadio(e));
  const sameRadio = (e) => e.type === "radio" && e.name && !e.checked && (all(`input[type=radio][name="${e.name}"]`, e.form || document).some((o) => o.checked) || all(`input[type=radio][name="${e.name}"]`, e.form || document)[0] !== e);
  // 2.4.7, 2.4.11: where the focus is can be seen, and nothing lies over it.
  const focus = () => {
    const e = document.activeElement, faults = [];
    if (!e || e === document.body) return ["nowhere"];
    const s = getComputedStyle(e), beside = e.nextElementSibling ? getComputedStyle(e.nextElementSibling) : s;
    if (s.outlineStyle === "none" && beside.outlineStyle === "none") faults.push(`${name(e)} does not show that it has the focus`);
    const r = e.getClientRects()[0];
    if (!r) return faults;
    if (r.bottom <= 0 || r.top >= innerHeight) faults.push(`${name(e)} has the focus and is out of sight`);
    const x = Math.min(Math.max(r.left + Math.min(r.width / 2, 20), 1), innerWidth - 2), y = Math.min(Math.max(r.top + r.height / 2, 1), innerHeight - 2);
    const top = document.elementFromPoint(x, y);
    if (top && !e.contains(top) && !top.contains(e) && !top.closest("label")) faults.push(`${name(e)} has the focus below ${name(top)}`);
    return faults;
  };
  const openAll = () => { all("details").forEach((d) => { d.open = true; }); return all("details").length; };

  return { contrast, overflow, measure, targets, structure, still, shift, stops, focus, openAll };
})();
