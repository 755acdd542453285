// What the reader has set, kept in the query of the address, so that it can be sent and survives a reload.
//   const { address } = window.guidegenBracket;
//   address.get("weights")            the text under a name, or "" where the address has none
//   address.set("weights", "30,20")   keeps a text; "" takes it out again, so that a default leaves no trace
//   address.onchange(() => ...)       called when the reader goes back or forward to another state
// The anchor stays as it is. Writing waits until the reader rests, since browsers limit how often it may be done;
// what was set can be read at once.
(() => {
  "use strict";
  const REST_MS = 200;
  const read = () => new URLSearchParams(location.search);
  const listeners = [];
  let kept = read();
  let waiting = 0;

  const write = () => {
    if (!waiting) return;
    clearTimeout(waiting);
    waiting = 0;
    const query = String(kept).replaceAll("%2C", ",");
    history.replaceState(history.state, "", `${location.pathname}${query && `?${query}`}${location.hash}`);
  };
  const get = (name) => kept.get(name) ?? "";
  const set = (name, text) => {
    if (text === get(name)) return;
    if (text) kept.set(name, text);
    else kept.delete(name);
    clearTimeout(waiting);
    waiting = setTimeout(write, REST_MS);
  };
  const onchange = (listener) => { listeners.push(listener); };

  addEventListener("pagehide", write);
  addEventListener("popstate", () => {
    if (waiting || String(read()) === String(kept)) return;
    kept = read();
    for (const listener of listeners) listener();
  });

  window.guidegenBracket = { address: { get, set, onchange } };
})();
