// Pyodide as its own documentation shows it: stock files, on the page's thread. The calculator is ours, as source.
import {loadPyodide} from "./pyodide/pyodide.mjs";

const field = document.getElementById("flow");
const python = await loadPyodide();
python.unpackArchive(await (await fetch("calculators.zip")).arrayBuffer(), "zip");
const {answer} = python.pyimport("calculators.page");
const work = () => {
  const inputs = {flow: `${field.value} cfm`, pipe_size: "4", pipe_length: "33 ft"};
  const {html} = JSON.parse(answer(JSON.stringify({calculator: "pipe-loss", inputs})));
  document.getElementById("answer").innerHTML = html.now;
};
field.addEventListener("input", work);
work();
