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
    ...(library ? {stdLibURL: library, lockFileContents: {info, packages: {}}, packageBaseUrl: engine, args: ["-S"]} : {}),
  });
  if (library && engine !== pyodide) python.pyimport("read_once");
  return python;
}

export const bytesOf = (file) => new Uint8Array(fs.readFileSync(file));

export function unpackWheels(python, folder, wanted = () => true) {
  const wheels = fs.readdirSync(folder).filter((name) => name.endsWith(".whl") && wanted(name)).sort();
  for (const name of wheels) python.FS.writeFile(`/${name}`, bytesOf(path.join(folder, name)));
  python.globals.set("WHEELS", JSON.stringify(wheels));
  python.runPython(`
import json, sys, zipfile
for wheel in json.loads(WHEELS):
    zipfile.ZipFile('/' + wheel).extractall('/wheels')
sys.path.append('/wheels')`);
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
