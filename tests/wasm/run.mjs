// Runs test files inside Pyodide with the library as it is shipped, and prints what came of each as one JSON line.
// settings: {pyodide, library, wheels (folder), project (folder), inside (this folder), files: ["tests/test_x.py"]}
import path from "node:path";
import {bytesOf, main, settings, startPython, unpackWheels} from "../../scripts/wasm/start.mjs";

const RUNNER = /^(pytest|pluggy|iniconfig|packaging|pygments)-/;

await main(async () => {
  const python = await startPython(settings);
  // pytest itself needs more of the standard library than the page: what is not shipped comes from the stock archive.
  python.FS.writeFile("/lib/stock.zip", bytesOf(path.join(settings.pyodide, "python_stdlib.zip")));
  python.FS.mkdirTree("/project");
  python.mountNodeFS("/project", settings.project);
  python.runPython("import sys; sys.path.insert(0, '/project/tests/wasm'); import inside; inside.add_stock_library('/lib/stock.zip')");
  unpackWheels(python, settings.wheels, (name) => RUNNER.test(name));
  python.globals.set("FILES", JSON.stringify(settings.files));
  console.log(python.runPython("inside.run(FILES)"));
});
