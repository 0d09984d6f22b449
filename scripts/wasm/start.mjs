// Pyodide under Node, as the build and the tests use it.
import {pathToFileURL} from "node:url";
import path from "node:path";
import fs from "node:fs";

export const settings = JSON.parse(process.argv[2]);

// Same hash seed and same clock each time, so that the same sources give the same bytes.
const STEADY = {PYTHONHASHSEED: "0", SOURCE_DATE_EPOCH: "315532800", PYTHONDONTWRITEBYTECODE: "1"};

// pyodide: the stock files; engine: the folder of the smaller ones that the site ships, if they are to run.
export async function startPython({pyodide, engine = pyodide, library}) {
  const {loadPyodide} = await import(pathToFileURL(path.join(engine, "pyodide.mjs")));
  const info = JSON.parse(fs.readFileSync(path.join(pyodide, "pyodide-lock.json"), "utf8")).info;
  const python = await loadPyodide({
    indexURL: engine,
    env: STEADY,
    ...(library ? {stdLibURL: library, lockFileContents: {info, packages: {}}, packageBaseUrl: engine} : {}),
  });
  if (library) python.pyimport("read_once");
  return python;
}

export const bytesOf = (file) => new Uint8Array(fs.readFileSync(file));

export function unpackWheels(python, folder, wanted = () => true) {
  const target = python.runPython("import sysconfig; sysconfig.get_paths()['purelib']");
  for (const name of fs.readdirSync(folder).sort()) {
    if (!name.endsWith(".whl") || !wanted(name)) continue;
    python.unpackArchive(bytesOf(path.join(folder, name)), "wheel", {extractDir: target});
  }
}

// A thrown error would make Node print a source line of a million characters: say the message only.
export async function main(work) {
  try {
    process.exitCode = (await work()) ?? 0;
  } catch (error) {
    console.error(String(error?.message ?? error).slice(-4000));
    process.exitCode = 1;
  }
  process.exit(process.exitCode);
}
