// Makes the library of the page inside the very Python that will read it there.
// settings: {pyodide, tools (folder of wheels), wheel, plan (see exercise.py), inside (folder of the .py parts), out (folder)}
import path from "node:path";
import fs from "node:fs";
import {bytesOf, main, settings, startPython, unpackWheels} from "./start.mjs";

await main(async () => {
  const python = await startPython({pyodide: settings.pyodide});
  const text = (name) => fs.readFileSync(path.join(settings.inside, name), "utf8");
  python.FS.mkdirTree("/pack");
  const wheel = `/pack/${path.basename(settings.wheel)}`;
  python.FS.writeFile(wheel, bytesOf(settings.wheel));
  python.globals.set("WHEEL", wheel);

  python.FS.writeFile("/pack/exercise.py", text("exercise.py"));
  for (const name of ["library.py", "read_once.py"]) python.FS.writeFile(`/pack/${name}`, text(name));
  python.globals.set("PLAN", JSON.stringify(settings.plan));
  python.runPython(`
import sys, json
sys.path[:0] = ['/pack', WHEEL]
import exercise
exercise.everything(json.loads(PLAN))
USED = exercise.modules_used()`);
  unpackWheels(python, settings.tools);
  python.runPython("import library; REPORT = library.make(WHEEL, set(USED), '/pack/library.zip')");

  fs.mkdirSync(settings.out, {recursive: true});
  fs.writeFileSync(path.join(settings.out, "library.zip"), python.FS.readFile("/pack/library.zip"));
  fs.writeFileSync(path.join(settings.out, "library.json"), python.globals.get("REPORT"));
});
