// Starts Python with the shipped archive alone and uses everything in it once.
// settings: {pyodide, library, exercise (file), plan}
import {bytesOf, main, settings, startPython} from "../../scripts/wasm/start.mjs";

function told(work) {
  try {
    return work();
  } catch (error) {
    return String(error.message);
  }
}

await main(async () => {
  const python = await startPython(settings);
  const started = JSON.parse(python.runPython("import json, sys; json.dumps(sorted(name for name, one in sys.modules.items() if getattr(one, '__spec__', None)))"));
  const error = told(() => python.runPython("import calculators.nothing"));
  python.FS.mkdirTree("/exercise");
  python.FS.writeFile("/exercise/exercise.py", bytesOf(settings.exercise));
  python.globals.set("PLAN", JSON.stringify(settings.plan));
  const said = python.runPython(`
import collections, json, sys, zipimport
sys.path.insert(0, '/exercise')
read = collections.Counter()
plain = zipimport._unmarshal_code
def counted(importer, pathname, *rest):
    read[pathname] += 1
    return plain(importer, pathname, *rest)
zipimport._unmarshal_code = counted
import exercise
answered = exercise.everything(json.loads(PLAN))
import calculators
json.dumps({
    "modules": sum(name.split(".")[0] == "calculators" for name in sys.modules),
    "answered": answered,
    "from": calculators.__file__,
    "read": len(read), "again": [name for name, times in read.items() if times > 1],
})`);
  console.log(JSON.stringify({...JSON.parse(said), started, error}));
});
