// A link that carries the inputs in its fragment, which is never sent anywhere. Whatever a fragment holds, opening it is
// harmless: it is read as plain data and only ever put into boxes as text.

const LONGEST = 20_000;
const DEEPEST = 6;
const MARK = "#i=";

export function link(state) {
  const url = new URL(location.href);
  url.hash = `${MARK.slice(1)}${encodeURIComponent(JSON.stringify(state))}`;
  return url.href.length > LONGEST ? null : url.href;
}

// {calculator, uid, units, inputs} of the address, or null when there is nothing of that kind in it.
export function fromAddress(hash = location.hash) {
  if (!hash.startsWith(MARK) || hash.length > LONGEST) return null;
  try {
    const state = JSON.parse(decodeURIComponent(hash.slice(MARK.length)));
    if (!isPlain(state, 0) || typeof state.calculator !== "string" || !isObject(state.inputs)) return null;
    return state;
  } catch {
    return null;
  }
}

const isObject = (value) => value !== null && typeof value === "object" && !Array.isArray(value);

function isPlain(value, depth) {
  if (["string", "boolean"].includes(typeof value) || value === null) return true;
  if (typeof value === "number") return Number.isFinite(value);
  if (depth >= DEEPEST) return false;
  if (Array.isArray(value)) return value.every((one) => isPlain(one, depth + 1));
  return Object.entries(value).every(([key, one]) => !["__proto__", "constructor", "prototype"].includes(key) && isPlain(one, depth + 1));
}
