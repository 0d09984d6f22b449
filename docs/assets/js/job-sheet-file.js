// A job as a file: saved, shared where the device can, opened. A file is data: what it holds is only ever shown as text.

const LARGEST = 1_000_000; // bytes
const DEEPEST = 20;

export class FileError extends Error {}

const nameOf = (title) => `${title.toLowerCase().normalize("NFKD").replace(/[^a-z0-9]+/g, "-").replace(/^-+|-+$/g, "").slice(0, 60) || "job"}`;
const textOf = (file) => `${JSON.stringify(file, null, 2)}\n`;

export function saveAsFile(title, text, ending = "json", type = "application/json") {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], {type}));
  link.download = `${nameOf(title)}.${ending}`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
  return link.download;
}

export const saveJob = (file) => saveAsFile(String(file.title ?? "job"), textOf(file));

// Hands the file to another app; says what happened. Many devices share text files only, so that is tried second.
export async function shareJob(file) {
  const name = nameOf(String(file.title ?? "job"));
  const forms = [[`${name}.json`, "application/json"], [`${name}.txt`, "text/plain"]];
  for (const [called, type] of forms) {
    const data = {files: [new File([textOf(file)], called, {type})], title: String(file.title ?? "")};
    if (!navigator.canShare?.(data)) continue;
    try {
      await navigator.share(data);
      return `${called} was handed over.`;
    } catch (error) {
      if (error.name === "AbortError") return "Nothing was shared.";
      console.error(error);
    }
  }
  return `This device cannot share files from here. ${saveJob(file)} was saved instead.`;
}

// The JSON of a chosen file. Throws FileError with words for the reader; whether it is a job is for the calculators to say.
export async function readFile(chosen) {
  if (chosen.size > LARGEST) throw new FileError(`${chosen.name} is larger than 1 MB. A job file is far smaller.`);
  let text;
  try {
    text = new TextDecoder("utf-8", {fatal: true}).decode(await chosen.arrayBuffer());
  } catch {
    throw new FileError(`${chosen.name} could not be read as text.`);
  }
  let file;
  try {
    file = JSON.parse(text);
  } catch {
    throw new FileError(`${chosen.name} is no job file: it is not JSON.`);
  }
  if (!flat(file, 0)) throw new FileError(`${chosen.name} is no job file: it is nested too deeply.`);
  return file;
}

const flat = (value, depth) => value === null || typeof value !== "object" || (depth < DEEPEST && Object.values(value).every((one) => flat(one, depth + 1)));
