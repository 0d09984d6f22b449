// Runs solving.py in the browser's Python, under Node, with the library and the engine as they are shipped.
// settings: {pyodide, engine, library, script (file), asked}
import {bytesOf, main, settings, startPython} from "../wasm/start.mjs";

await main(async () => {
  const start = performance.now();
  const python = await startPython(settings);
  const ready = performance.now() - start;
  python.FS.mkdirTree("/bench");
  python.FS.writeFile("/bench/solving.py", bytesOf(settings.script));
  python.globals.set("ASKED", JSON.stringify(settings.asked));
  const found = JSON.parse(python.runPython(`
import sys, json
sys.path.insert(0, '/bench')
import solving
json.dumps(solving.everything(json.loads(ASKED)))`));
  console.log(JSON.stringify({start: ready, ...found}));
});
