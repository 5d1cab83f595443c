// Shows the pages of the kiosk and tells what is pressed. It keeps nothing: what is shown is wiped as soon as
// the talk with the kiosk ends, and nothing is stored, fetched or opened.
"use strict";
(() => {
  const byId = (id) => document.getElementById(id);
  const board = byId("board"), more = byId("more"), word = byId("word");
  const CLOSED = 4000, FULL = 4001;
  const SILENT = 15000;      // milliseconds without a sign of the kiosk after which it is taken for gone
  const PASSES = new Set(["ArrowUp", "ArrowDown", "ArrowLeft", "ArrowRight", "Enter", " ", "Escape", "Tab",
    "PageUp", "PageDown", "Backspace", "Delete"]);
  const cell = { wide: 8, high: 16 };
  let talk = null, heard = 0, touched = 0, shown = -1, at = -1;

  const say = (said) => { if (talk && talk.readyState === WebSocket.OPEN) talk.send(JSON.stringify(said)); };

  // Letters grow with the screen, from about forty columns on a telephone to a hundred on a desk.
  function measure() {
    const wide = board.clientWidth, high = board.clientHeight;
    const size = Math.max(14, Math.min(22, 12 + Math.min(wide, high * 1.5) / 110));
    board.style.fontSize = `${size}px`;
    const ruler = board.appendChild(document.createElement("span"));
    ruler.textContent = "0".repeat(100);
    cell.wide = ruler.getBoundingClientRect().width / 100;
    ruler.remove();
    cell.high = Math.round(size * 1.25);
    board.style.lineHeight = `${cell.high}px`;
    say({ size: [Math.max(1, Math.floor(wide / cell.wide)), Math.max(1, Math.floor(high / cell.high))] });
  }

  // The signs of a row, one a cell; the frames of the tiles are drawn by the browser instead.
  function cells(frame) {
    const rows = frame.rows.map((row) => row.flatMap(([role, text]) => [...text].map((sign) => [role, sign])));
    for (const [, x, y, wide, high] of frame.tiles) {
      for (let down = y; down < y + high; down++) {
        for (let across = x; across < x + wide; across++) {
          const edge = down === y || down === y + high - 1 || across === x || across === x + wide - 1;
          if (edge && rows[down] && rows[down][across]) rows[down][across] = ["plain", " "];
        }
      }
    }
    return rows;
  }

  // A letter is as wide as its cell already; any other sign is given its cell, whatever font it comes from.
  function drawn(row) {
    const line = document.createElement("div");
    line.className = "row";
    line.style.height = `${cell.high}px`;
    let run = null;
    for (const [role, sign] of row) {
      const plain = sign >= " " && sign <= "~";
      if (!plain || !run || run.className !== role) {
        run = line.appendChild(document.createElement(plain ? "span" : "b"));
        run.className = role;
      }
      run.append(sign);
      if (!plain) run = null;
    }
    return line;
  }

  function tile([press, x, y, wide, high, text, here, marked], page) {
    const button = document.createElement("button");
    button.type = "button";
    button.tabIndex = -1;
    button.className = `${here ? "here" : ""} ${marked ? "marked" : ""}`;
    button.setAttribute("aria-label", text);
    if (marked) button.setAttribute("aria-pressed", "true");
    button.dataset.press = press;
    const inset = cell.high / 5;     // frames stand half in their cells, and never touch one another
    Object.assign(button.style, {
      left: `${x * cell.wide}px`, top: `${y * cell.high + inset}px`,
      width: `${wide * cell.wide}px`, height: `${high * cell.high - 2 * inset}px`,
    });
    button.addEventListener("click", () => say({ press, page }));
    return button;
  }

  function show(frame) {
    board.replaceChildren(...cells(frame).map(drawn), ...frame.tiles.map((one) => tile(one, frame.page)));
    if (frame.page !== shown) board.scrollTop = 0;
    if (frame.page !== shown ? frame.at > 0 : frame.at !== at) board.scrollTop = frame.at * cell.high;
    shown = frame.page;
    at = frame.at;
    tell("");
    hint();
  }

  function hint() {
    more.hidden = board.scrollHeight - board.clientHeight - board.scrollTop < cell.high * 1.5;
  }

  function tell(when) {
    word.hidden = !when;
    for (const one of word.querySelectorAll("[data-when]")) one.hidden = one.dataset.when !== when;
  }

  function wipe(when) {
    board.replaceChildren();
    more.hidden = true;
    shown = at = -1;
    tell(when);
  }

  function begin() {
    const mine = new WebSocket(`${location.protocol === "https:" ? "wss" : "ws"}://${location.host}/talk`);
    talk = mine;
    heard = Date.now();
    let code = 0;
    mine.addEventListener("open", measure);
    mine.addEventListener("message", (event) => {
      heard = Date.now();
      if (mine === talk && event.data) show(JSON.parse(event.data));
    });
    mine.addEventListener("close", (event) => { code = event.code; end(mine, code); });
  }

  function end(which, code) {
    if (which !== talk) return;
    talk = null;
    wipe(code === CLOSED ? "closed" : code === FULL ? "full" : "again");
    setTimeout(begin, code === CLOSED || code === FULL ? 5000 : 1500);
  }

  setInterval(() => {
    if (!talk || Date.now() - heard < SILENT) return;
    const silent = talk;
    end(silent, 0);
    silent.close();
  }, 1000);

  function touch() {
    if (Date.now() - touched < 1000) return;
    touched = Date.now();
    say({ touched: true });
  }

  // Whatever a page may keep from the browser, it keeps; what it may not, the machine has to be locked against.
  addEventListener("keydown", (event) => {
    event.preventDefault();
    event.stopPropagation();
    if (event.ctrlKey || event.altKey || event.metaKey) return touch();
    const key = event.key === "Tab" && event.shiftKey ? "Shift+Tab" : event.key;
    if (key.length === 1 || PASSES.has(event.key)) say({ key });
    return undefined;
  }, { capture: true });
  for (const name of ["contextmenu", "dragstart", "dragover", "drop", "selectstart", "copy", "cut", "paste",
    "gesturestart", "auxclick"]) {
    addEventListener(name, (event) => event.preventDefault(), { capture: true, passive: false });
  }
  for (const name of ["mousedown", "mouseup"]) {     // the buttons at a mouse's side turn pages back and forth
    addEventListener(name, (event) => { if (event.button) event.preventDefault(); }, { capture: true });
  }
  addEventListener("wheel", (event) => {
    if (event.ctrlKey) event.preventDefault();
    touch();
  }, { passive: false });
  addEventListener("pointerdown", touch, { capture: true });
  addEventListener("pagehide", () => { wipe("again"); if (talk) talk.close(); });
  addEventListener("pageshow", (event) => { if (event.persisted) location.reload(); });
  addEventListener("resize", measure);
  board.addEventListener("scroll", () => { touch(); hint(); });
  begin();
})();
