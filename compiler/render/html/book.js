"use strict";
(() => {
  const root = new URL(".", document.currentScript.src).href;
  const all = (selector, within = document) => [...within.querySelectorAll(selector)];
  const one = (selector, within = document) => within.querySelector(selector);
  const fold = text => text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase().replace(/’/g, "'");
  const address = path => root + path + ".html";

  // ---- amounts and measures

  const remembered = {
    get: name => { try { return localStorage.getItem(name); } catch { return null; } },
    set: (name, value) => { try { localStorage.setItem(name, value); } catch { /* a reader may forbid it */ } },
  };

  function showScale(part, scale) {
    for (const amount of all("[data-scale]", part)) amount.hidden = amount.dataset.scale !== scale;
    const note = one(".scale-note", part);
    if (note) note.hidden = scale === "0";
  }

  function showUnit(part, unit) {
    for (const cell of all("[data-unit]", part)) cell.hidden = unit !== "" && cell.dataset.unit !== unit;
    const shown = all("thead [data-unit]", part).filter(cell => !cell.hidden).length;
    for (const cell of all("[data-units]", part)) cell.colSpan = shown;
  }

  for (const box of all(".switches")) {
    const part = box.parentElement;
    box.hidden = false;
    const chosen = name => one(`[data-switch=${name}] :checked`, box)?.value;
    const unit = remembered.get("gill-unit");
    for (const radio of all("[data-switch=unit] input", box)) if (radio.value === unit) radio.checked = true;
    const show = () => {
      if (chosen("scale") !== undefined) showScale(part, chosen("scale"));
      if (chosen("unit") !== undefined) showUnit(part, chosen("unit"));
    };
    box.addEventListener("change", event => {
      if (event.target.name.startsWith("unit")) remembered.set("gill-unit", event.target.value);
      show();
    });
    addEventListener("pageshow", show);
  }

  // ---- what can be found

  let book = null;
  const waiting = [];

  /// Calls back with the book's data, which load once.
  function withBook(use) {
    if (book) return use();
    waiting.push(use);
    if (waiting.length > 1) return;
    window.gillBook = data => {
      book = data;
      for (const page of book.drinks) page.fields = fieldsOfDrink(page);
      for (const page of book.stock) page.fields = fieldsOfStock(page);
      for (const then of waiting) then();
    };
    const script = document.createElement("script");
    script.src = root + "find.js";
    document.head.append(script);
  }

  const field = (label, text, weight) => ({ label, text: fold(text), shown: text, weight });

  function fieldsOfAllergens(page) {
    return [...page.has.map(word => field("declares", book.allergens[word] ?? word, 3)),
            ...page.may.map(word => field("may hold", book.allergens[word] ?? word, 3))];
  }

  function fieldsOfDrink(page) {
    return [field("", page.name, 9), ...page.was ? [field("was", page.was, 5)] : [],
            ...page.tags.map(tag => field("tag", tag, 4)), ...fieldsOfAllergens(page),
            ...page.uses.map(at => field("with", book.stock[at].name, 3)),
            ...[page.family, page.base, page.glass].filter(Boolean).map(word => field("", word, 2))];
  }

  function fieldsOfStock(page) {
    return [field("", page.name, 8), ...page.aka.map(name => field("also", name, 5)), ...fieldsOfAllergens(page)];
  }

  /// How well a word fits a field: at its start, at the start of a word, anywhere; 0 when it does not.
  function fit(word, text) {
    const at = text.indexOf(word);
    if (at < 0) return 0;
    if (at === 0) return 3;
    if (text.includes(" " + word) || text.includes("-" + word)) return 2;
    return word.length > 2 ? 1 : 0;
  }

  /// The page's score for all the words of a question, with the field that tells why; null when a word fits nothing.
  function scored(page, words) {
    let score = 0, why = null;
    for (const word of words) {
      let best = 0;
      for (const candidate of page.fields) {
        const value = fit(word, candidate.text) * candidate.weight;
        if (value <= best) continue;
        best = value;
        why = candidate;
      }
      if (best === 0) return null;
      score += best;
    }
    return { page, score, why };
  }

  function search(question) {
    const words = fold(question).split(/\s+/).filter(Boolean);
    if (words.length === 0) return [];
    return [...book.drinks, ...book.stock].map(page => scored(page, words)).filter(Boolean)
      .sort((a, b) => b.score - a.score || a.page.name.localeCompare(b.page.name));
  }

  // ---- search on every page

  const box = one(".find");
  if (box) {
    const input = one("input", box), found = one(".found", box), count = one("#find-count", box);
    const list = document.createElement("ul");
    const most = 30;
    box.hidden = false;
    found.append(list);

    const row = ({ page, why }) => {
      const item = document.createElement("li"), link = document.createElement("a"), words = document.createElement("span");
      link.href = address(page.path);
      link.textContent = page.name;
      words.textContent = [page.kind, why && why.label ? `${why.label} ${why.shown}` : ""].filter(Boolean).join(" · ");
      item.append(link, " ", words);
      return item;
    };

    const show = () => {
      const question = input.value.trim();
      found.hidden = question === "";
      if (question === "") return list.replaceChildren();
      withBook(() => {
        const results = search(input.value);
        list.replaceChildren(...results.slice(0, most).map(row));
        count.textContent = results.length === 0 ? "Nothing found." : results.length === 1 ? "1 found."
          : `${results.length} found${results.length > most ? `, the first ${most} shown` : ""}.`;
      });
    };
    const close = () => { input.value = ""; show(); input.focus(); };
    const links = () => all("a", list);
    const step = by => {
      const at = links().indexOf(document.activeElement) + by;
      if (at < 0) input.focus();
      else links()[Math.min(at, links().length - 1)]?.focus();
    };

    input.addEventListener("focus", () => withBook(show));
    input.addEventListener("input", show);
    box.addEventListener("keydown", event => {
      if (event.key === "Enter" && event.target === input) links()[0]?.click();
      if (event.key === "Escape") { event.preventDefault(); close(); }
      if (event.key === "ArrowDown") { event.preventDefault(); step(1); }
      if (event.key === "ArrowUp") { event.preventDefault(); step(-1); }
    });
    box.addEventListener("focusout", event => { if (!box.contains(event.relatedTarget)) found.hidden = true; });
    found.addEventListener("pointerdown", event => event.preventDefault());
    document.addEventListener("keydown", event => {
      const writes = event.target.closest?.("input, select, textarea");
      if (event.key !== "/" || writes || event.ctrlKey || event.metaKey || event.altKey) return;
      event.preventDefault();
      input.focus();
      input.select();
    });
  }

  // ---- filters on the first page

  const finder = one(".finder");
  if (finder) {
    const matches = one(".matches"), count = one(".count", matches), note = one(".allergen-note", matches), body = one(".body");
    const list = document.createElement("ul");
    list.className = "index";
    matches.append(list);
    finder.hidden = false;
    const rows = new Map();
    for (const link of all("ul.index > li > a:first-child", body)) rows.set(link.href, link.parentElement);

    /// True when a declared code is, or may be, the one a guest avoids: `nuts` may be any nut.
    const meets = (code, avoided) => code === avoided || code.startsWith(avoided + ":") || avoided.startsWith(code + ":");

    const show = () => {
      const wanted = name => one(`select[name=${name}]`, finder)?.value ?? "";
      const avoided = all("fieldset input:checked", finder).map(input => input.value);
      const onlyFree = one("input[name=free]", finder).checked;
      const filters = ["menu", "family", "base", "glass"].filter(name => wanted(name) !== "");
      const active = filters.length > 0 || avoided.length > 0 || onlyFree;
      body.hidden = active;
      matches.hidden = !active;
      if (!active) return;
      const kept = book.drinks.filter(drink => filters.every(name => name === "menu" ? drink.menus.includes(wanted(name))
        : drink[name] === wanted(name)) && (!onlyFree || drink.free));
      const declares = drink => avoided.some(word => drink.has.some(code => meets(code, word)));
      const may = drink => avoided.some(word => drink.may.some(code => meets(code, word)));
      const left = avoided.length === 0 ? kept : kept.filter(drink => !declares(drink) && !may(drink) && drink.known);
      const maybe = kept.filter(drink => !declares(drink) && may(drink)).length;
      const unknown = kept.filter(drink => !declares(drink) && !may(drink) && !drink.known).length;
      list.replaceChildren(...left.map(drink => rows.get(address(drink.path))?.cloneNode(true)).filter(Boolean));
      note.hidden = avoided.length === 0;
      const words = [left.length === 1 ? "1 drink" : `${left.length} drinks`];
      if (avoided.length > 0) words[0] += ` without a declared ${avoided.map(word => book.allergens[word] ?? word).join(" or ")}`;
      if (avoided.length > 0 && maybe > 0) words.push(`${maybe} left out that may hold it`);
      if (avoided.length > 0 && unknown > 0) words.push(`${unknown} left out of which not all is known`);
      count.textContent = words.join("; ") + ".";
    };
    finder.addEventListener("change", () => withBook(show));
    one("button", finder).addEventListener("click", () => {
      for (const select of all("select", finder)) select.value = "";
      for (const input of all("input", finder)) input.checked = false;
      withBook(show);
    });
    addEventListener("pageshow", () => withBook(show));
  }
})();
