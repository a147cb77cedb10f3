import { readdirSync, readFileSync } from "node:fs";
import { basename, join, relative, resolve } from "node:path";
import ts from "typescript";
import { expect, test } from "vitest";

// Limits of this project's own: common practice, no source.
const mostFiles = 30;
const mostLines = 300;
const usualFunction = 60;
const longestFunction = 90;
const mostLongFunctions = 10;

const root = resolve(import.meta.dirname, "..");

interface Folder {
  path: string;
  files: string[];
}

function foldersBelow(path: string): Folder[] {
  const entries = readdirSync(path, { withFileTypes: true });
  const files = entries.filter((entry) => entry.isFile()).map(({ name }) => join(path, name));
  return [
    { path, files },
    ...entries.filter((entry) => entry.isDirectory()).flatMap(({ name }) => foldersBelow(join(path, name))),
  ];
}

const folders = ["src", "analyses"].flatMap((room) => foldersBelow(join(root, room)));
const sources = folders
  .flatMap(({ files }) => files)
  .filter((file) => /\.(?:ts|tsx|mjs)$/.test(file))
  .map((path) => parsed(relative(root, path), readFileSync(path, "utf8")));

function parsed(path: string, text: string): ts.SourceFile {
  return ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true);
}

const isFunction = (node: ts.Node): node is ts.FunctionLikeDeclaration =>
  ts.isFunctionLike(node) && "body" in node && node.body !== undefined;

function visit(node: ts.Node, see: (node: ts.Node) => void): void {
  see(node);
  node.forEachChild((child) => visit(child, see));
}

interface LongFunction {
  lines: number;
  says: string;
}

/** Functions, methods and arrow functions longer than usual, from the first line of their own to the last. */
function longFunctions(source: ts.SourceFile): LongFunction[] {
  const found: LongFunction[] = [];
  visit(source, (node) => {
    if (!isFunction(node)) return;
    const [first, last] = [node.getStart(), node.end].map((at) => source.getLineAndCharacterOfPosition(at).line + 1);
    const lines = last! - first! + 1;
    const name = node.name?.getText() ?? "a function without a name";
    if (lines > usualFunction) found.push({ lines, says: `${source.fileName}:${first} ${name} has ${lines} lines` });
  });
  return found;
}

const changers = new Set("set add delete clear push pop shift unshift splice sort reverse fill copyWithin".split(" "));

/** The name at the root of "kept", "kept.byName" or "kept[3]"; a call in between leads to something else. */
function rootName(node: ts.Node): string | undefined {
  if (ts.isIdentifier(node)) return node.text;
  return ts.isPropertyAccessExpression(node) || ts.isElementAccessExpression(node) || ts.isNonNullExpression(node)
    ? rootName(node.expression)
    : undefined;
}

/** What a node changes in place: "kept" for kept.set(...), kept.byName = ..., kept[3]++. */
function changedBy(node: ts.Node): string | undefined {
  if (ts.isCallExpression(node) && ts.isPropertyAccessExpression(node.expression))
    return changers.has(node.expression.name.text) ? rootName(node.expression.expression) : undefined;
  if (ts.isBinaryExpression(node)) {
    const { kind } = node.operatorToken;
    const assigns = kind >= ts.SyntaxKind.FirstAssignment && kind <= ts.SyntaxKind.LastAssignment;
    return assigns ? rootName(node.left) : undefined;
  }
  if (ts.isPostfixUnaryExpression(node)) return rootName(node.operand);
  if (ts.isPrefixUnaryExpression(node))
    return node.operator === ts.SyntaxKind.PlusPlusToken || node.operator === ts.SyntaxKind.MinusMinusToken
      ? rootName(node.operand)
      : undefined;
  return undefined;
}

/** Whether a name means something of the function's own where a node stands. */
function isLocal(name: string, node: ts.Node, source: ts.SourceFile): boolean {
  for (let at: ts.Node = node; at !== source; at = at.parent) {
    let own = false;
    const see = (inner: ts.Node): void => {
      if (inner !== at && isFunction(inner)) return;
      if (
        (ts.isVariableDeclaration(inner) || ts.isParameter(inner) || ts.isBindingElement(inner)) &&
        ts.isIdentifier(inner.name)
      )
        own ||= inner.name.text === name;
      inner.forEachChild(see);
    };
    if (isFunction(at)) see(at);
    if (own) return true;
  }
  return false;
}

/**
 * State at the top of a module: a `let` or `var`, a WeakMap or WeakSet, and a constant that some function changes in place,
 * by a method that changes (set, add, push ...) or by assigning to a part. Statements at the top of the module may fill a
 * table; that happens once. A signal is the state of a page that runs once. What the test cannot see is a map that hides in
 * a closure or goes to a function as an argument.
 */
function keptState(source: ts.SourceFile): string[] {
  const found: string[] = [];
  const constants = new Set<string>();
  const say = (node: ts.Node, what: string) =>
    found.push(`${source.fileName}:${source.getLineAndCharacterOfPosition(node.getStart()).line + 1} ${what}`);
  for (const statement of source.statements) {
    if (!ts.isVariableStatement(statement)) continue;
    const isConstant = (statement.declarationList.flags & ts.NodeFlags.Const) !== 0;
    for (const declaration of statement.declarationList.declarations) {
      const name = declaration.name.getText();
      const initial = declaration.initializer;
      const made =
        initial !== undefined && (ts.isNewExpression(initial) || ts.isCallExpression(initial))
          ? initial.expression.getText()
          : "";
      if (!isConstant) say(declaration, `${name} is a variable at the top of the module`);
      else if (/^Weak(?:Map|Set|Ref)$/.test(made)) say(declaration, `${name} is a ${made} at the top of the module`);
      else if (made !== "signal") constants.add(name);
    }
  }
  const seeIn = (node: ts.Node, inFunction: boolean): void => {
    const name = inFunction ? changedBy(node) : undefined;
    if (name !== undefined && constants.has(name) && !isLocal(name, node, source))
      say(node, `${name}, made at the top of the module, is changed inside a function`);
    node.forEachChild((child) => seeIn(child, inFunction || isFunction(node)));
  };
  seeIn(source, false);
  return found;
}

test(`no folder holds more than ${mostFiles} files`, () => {
  const full = folders.filter(({ files }) => files.length > mostFiles);
  expect(full.map(({ path, files }) => `${relative(root, path)} holds ${files.length} files`)).toEqual([]);
});

test(`no file is longer than ${mostLines} lines`, () => {
  const lines = (text: string): number => text.split("\n").length - 1;
  const long = sources.filter(({ text }) => lines(text) > mostLines);
  expect(long.map(({ fileName, text }) => `${fileName} has ${lines(text)} lines`)).toEqual([]);
});

test(`at most ${mostLongFunctions} functions are longer than ${usualFunction} lines, and none than ${longestFunction}`, () => {
  const long = sources.flatMap(longFunctions).sort((a, b) => b.lines - a.lines);
  const list = long.map(({ says }) => says).join("\n");
  expect(long.filter(({ lines }) => lines > longestFunction).map(({ says }) => says)).toEqual([]);
  expect(long.length, `${long.length} functions are longer than ${usualFunction} lines:\n${list}`).toBeLessThanOrEqual(
    mostLongFunctions,
  );
});

test("no two files share a name", () => {
  const byName = new Map<string, string[]>();
  for (const { fileName: path } of sources) byName.set(basename(path), [...(byName.get(basename(path)) ?? []), path]);
  byName.delete("index.ts");
  expect([...byName.values()].filter((paths) => paths.length > 1).map((paths) => paths.join(" and "))).toEqual([]);
});

test("no module keeps what it finds as the program runs", () => {
  expect(sources.flatMap(keptState)).toEqual([]);
});

test("the rules see what they are to see", () => {
  const lines = (count: number): string => `function long() {\n${"  void 0;\n".repeat(count - 2)}}\n`;
  expect(longFunctions(parsed("a.ts", lines(60)))).toEqual([]);
  expect(longFunctions(parsed("a.ts", lines(61))).map(({ says }) => says)).toEqual(["a.ts:1 long has 61 lines"]);
  expect(longFunctions(parsed("a.ts", `const it = { ${lines(70).replace("function ", "")}};`))).toHaveLength(1);
  const found = (text: string): string[] =>
    keptState(parsed("a.ts", text)).map((one) => one.replace(/^a\.ts:\d+ /, ""));
  expect(found("let last = 0;")).toEqual(["last is a variable at the top of the module"]);
  expect(found("const kept = new WeakMap<object, number>();")).toEqual(["kept is a WeakMap at the top of the module"]);
  const changed = ["kept, made at the top of the module, is changed inside a function"];
  expect(found("const kept = new Map(); const f = (key) => kept.set(key, 1);")).toEqual(changed);
  expect(found("const kept = []; function f(one) { kept.push(one); }")).toEqual(changed);
  expect(found("const kept = {}; function f(one) { kept[one] = 1; }")).toEqual(changed);
  expect(found("const kept = { last: 0 }; class A { f() { kept.last++; } }")).toEqual(changed);
  expect(found("const table = new Map(); for (const word of ['a']) table.set(word, 1);")).toEqual([]);
  expect(found("const kept = new Map(); function f(kept) { kept.set(1, 2); }")).toEqual([]);
  expect(found("const kept = new Map(); function f() { const kept = []; return () => kept.push(1); }")).toEqual([]);
  expect(found("const picked = signal(''); function f(name) { picked.value = name; }")).toEqual([]);
});
