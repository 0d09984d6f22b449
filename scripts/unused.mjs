// Prints Pyodide's JavaScript without the functions that nothing in it can reach: graphics, sound, other file systems.
// settings: {script, starter (file that starts it), imports: [names of what WebAssembly takes from it]}
// All of it is the body of one function. A declaration that does nothing by being made is kept when its name stands in
// something that is kept, whatever the name means there; so too much is kept, never too little.
import fs from "node:fs";
import {parse} from "acorn";

const settings = JSON.parse(process.argv[2]);
const text = fs.readFileSync(settings.script, "utf8");
const imports = new Set(settings.imports);

const FUNCTIONS = new Set(["FunctionDeclaration", "FunctionExpression", "ArrowFunctionExpression"]);
const ACTS = new Set(["CallExpression", "AssignmentExpression", "UpdateExpression", "AwaitExpression", "YieldExpression", "TaggedTemplateExpression"]);
const HARMLESS = new Set(["Set", "Map", "WeakMap", "Array"]);

const children = (node) => Object.entries(node).flatMap(([key, value]) =>
  [value].flat().filter((one) => typeof one?.type === "string").map((child) => [key, child]));

const does = (node) => !FUNCTIONS.has(node?.type) && Boolean(node) && (ACTS.has(node.type)
  || (node.type === "NewExpression" && !HARMLESS.has(node.callee.name)) || children(node).some(([, child]) => does(child)));

const onlyAName = (node, key) => !node.computed && ((key === "property" && node.type === "MemberExpression") || (key === "key" && !node.shorthand));

function names(node, found = new Set()) {
  if (node.type === "Identifier") found.add(node.name);
  for (const [key, child] of children(node)) if (!onlyAName(node, key)) names(child, found);
  return found;
}

// `object.name = value` or `object["name"] = value`, where that is a whole statement and does nothing else.
function assigned({type, expression}) {
  if (type !== "ExpressionStatement" || expression.type !== "AssignmentExpression" || does(expression.right)) return null;
  const {object, property} = expression.left;
  return object?.type === "Identifier" ? {object: object.name, name: property.value ?? property.name, to: expression.right} : null;
}

// `Module["name"] = name` offers it to who asks for it by that name.
const offered = (statement) => {
  const {object, name, to} = assigned(statement) ?? {};
  return object === "Module" && to.type === "Identifier" ? name : null;
};

function asked(node, found) {
  if (typeof node.value === "string") found.add(node.value);
  for (const [key, child] of children(node)) {
    if (onlyAName(node, key)) found.add(child.name);
    if (!offered(child)) asked(child, found);
  }
  return found;
}

const body = parse(text, {ecmaVersion: "latest", sourceType: "module"}).body.find(({type}) => type === "FunctionDeclaration").body;
const wanted = asked(body, new Set(fs.readFileSync(settings.starter, "utf8").match(/[\w$]+/g)));

// What can go by itself: {node, statement}, with the name that it makes (`makes`) or that it belongs to (`of`), or that
// nobody needs (`idle`).
const isTable = ({id}) => id.name === "wasmImports";
if (body.body.filter(({declarations}) => declarations?.some(isTable) && declarations.length === 1).length !== 1) throw new Error("no wasmImports");
const parts = body.body.flatMap((statement) => {
  if (statement.type === "FunctionDeclaration") return [{node: statement, statement, makes: statement.id.name}];
  if (statement.type === "VariableDeclaration") {
    return statement.declarations.flatMap((node) => (isTable(node)
      ? node.init.properties.map((entry) => ({node: entry, statement, idle: !imports.has(entry.key.name)}))
      : [{node, statement, makes: does(node.init) ? undefined : node.id.name, also: node.id.name}]));
  }
  const offer = offered(statement);
  if (offer) return [{node: statement, statement, idle: !wanted.has(offer)}];
  return [{node: statement, statement, of: assigned(statement)?.object}];
});

const made = new Set(parts.flatMap(({makes, also}) => [makes, also]));
const optional = ({makes, of, idle}) => idle || makes || (of && made.has(of));
const byName = Map.groupBy(parts, ({makes, also, of}) => makes ?? also ?? of);
const kept = new Set(parts.filter((part) => !optional(part)));
for (const {node} of kept) {
  for (const name of names(node)) for (const part of byName.get(name) ?? []) kept.add(part);
}

let out = "", at = 0;
for (const [statement, all] of Map.groupBy(parts, (part) => part.statement)) {
  const left = all.filter((part) => kept.has(part));
  if (left.length === all.length) continue;
  out += text.slice(at, statement.start);
  const list = left.map(({node}) => text.slice(node.start, node.end)).join(",");
  const table = statement.declarations?.find(isTable);
  if (table) out += `${statement.kind} wasmImports={${list}};`;
  else if (left.length) out += `${statement.kind} ${list};`;
  at = statement.end;
}
process.stdout.write(out + text.slice(at));
