// Makes the library of the page inside the very Python that will read it there.
// settings: {pyodide, tools (folder of wheels), wheel, plan (see exercise.py), inside (folder of the .py parts), out (folder)}
import path from "node:path";
import fs from "node:fs";
import {bytesOf, main, settings, startPython, unpackWheels} from "./start.mjs";

const wheel = `/pack/${path.basename(settings.wheel)}`;
const {pyodide, inside, out} = settings;

async function start(options, names) {
  const python = await startPython({pyodide, ...options});
  python.FS.mkdirTree("/pack");
  python.FS.writeFile(wheel, bytesOf(settings.wheel));
  for (const name of names) {
    python.FS.mkdirTree(path.posix.dirname(`/pack/${name}`));
    python.FS.writeFile(`/pack/${name}`, bytesOf(path.join(inside, name)));
  }
  python.globals.set("WHEEL", wheel);
  python.globals.set("PLAN", JSON.stringify(settings.plan));
  python.runPython("import sys, json; sys.path[:0] = ['/pack', WHEEL]");
  return python;
}

await main(async () => {
  const plain = fs.readdirSync(path.join(inside, "plain"), {recursive: true}).map((name) => path.posix.join("plain", name));
  const maker = await start({}, ["library.py", "read_once.py", ...plain.filter((name) => name.endsWith(".py"))]);
  unpackWheels(maker, settings.tools);
  fs.mkdirSync(out, {recursive: true});
  const save = (name) => fs.writeFileSync(path.join(out, name), maker.FS.readFile(`/pack/${name}`));
  maker.runPython("import library; library.plainer_stock('/pack/stock.zip')");
  save("stock.zip");

  const user = await start({library: path.join(out, "stock.zip")}, ["exercise.py"]);
  user.runPython("import exercise; exercise.everything(json.loads(PLAN))");
  maker.globals.set("USED", user.runPython("json.dumps(exercise.modules_used())"));
  fs.rmSync(path.join(out, "stock.zip"));

  maker.runPython("REPORT = library.make(WHEEL, set(json.loads(USED)), '/pack/library.zip')");
  save("library.zip");
  fs.writeFileSync(path.join(out, "library.json"), maker.globals.get("REPORT"));
});
