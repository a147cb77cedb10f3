import { readdirSync, readFileSync } from "node:fs";
import { posix } from "node:path";
import { fileURLToPath } from "node:url";
import ts from "typescript";

/** What a doc comment shows of a function: statements, an expression and what it gives. */
export interface DocumentedExample {
  /** path from the root of the project */
  file: string;
  routine: string;
  /** statements before the expression; empty for most */
  setUp: string;
  expression: string;
  /** undefined where the comment does not say what comes out */
  expected: string | undefined;
  /** a routine whose set-up is used */
  borrowed: string | undefined;
}

/** An exported function of a file. */
export interface ExportedFunction {
  file: string;
  name: string;
  /** names of its parameters; a destructured one as it is written */
  parameters: string[];
  /** a working part of a method, not offered to other rooms */
  isInternal: boolean;
  examples: DocumentedExample[];
}

const root = new URL("../", import.meta.url);

/** TypeScript files below a folder of the project, as paths from its root. */
export function sourceFiles(folder: string): string[] {
  return readdirSync(new URL(`${folder}/`, root), { recursive: true, encoding: "utf8" })
    .filter((path) => /\.tsx?$/.test(path) && !path.endsWith(".d.mts"))
    .map((path) => `${folder}/${path.replaceAll("\\", "/")}`)
    .sort();
}

/** The functions a file exports, with the examples of their comments. */
export function exportedFunctions(file: string): ExportedFunction[] {
  const text = readFileSync(new URL(file, root), "utf8");
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true);
  return source.statements.filter(ts.isFunctionDeclaration).flatMap((declaration) => {
    const isExported = declaration.modifiers?.some((modifier) => modifier.kind === ts.SyntaxKind.ExportKeyword);
    if (!isExported || declaration.name === undefined) return [];
    const name = declaration.name.text;
    const comment = ts
      .getJSDocCommentsAndTags(declaration)
      .map((part) => part.getText())
      .at(-1);
    const examples = examplesOf(file, name, comment ?? "");
    const parameters = declaration.parameters.map((parameter) => parameter.name.getText());
    return [{ file, name, parameters, isInternal: /@internal\b/.test(comment ?? ""), examples }];
  });
}

function examplesOf(file: string, routine: string, comment: string): DocumentedExample[] {
  return [...comment.matchAll(/@example\b([\s\S]*?)(?=\n\s*\*\s*@|\*\/)/g)].map(([, body]) => {
    const text = body!.replace(/\n\s*\* ?/g, "\n").trim();
    const cut = text.lastIndexOf(" // ");
    const code = cut < 0 ? text : text.slice(0, cut);
    const [expected, borrowed] = cut < 0 ? [] : text.slice(cut + 4).split(/, with the set-up of /);
    const start = code.lastIndexOf(";\n") + 1;
    return { file, routine, setUp: code.slice(0, start), expression: code.slice(start).trim(), expected, borrowed };
  });
}

/** Where each exported name of the project comes from, own folder first. */
export function moduleOf(
  functions: ReadonlyMap<string, ReadonlyArray<string>>,
  from: string,
  name: string,
): string | undefined {
  const files = functions.get(name) ?? [];
  const closeness = (file: string): number => {
    if (file === from) return 0;
    const folder = (path: string): string => path.slice(0, path.lastIndexOf("/"));
    if (folder(file) === folder(from)) return 1;
    return file.split("/").slice(0, 2).join("/") === from.split("/").slice(0, 2).join("/") ? 2 : 3;
  };
  return [...files].sort((a, b) => closeness(a) - closeness(b))[0];
}

/** Every exported name (functions and constants) with the files that export it. */
export function exportedNames(files: ReadonlyArray<string>): Map<string, string[]> {
  const names = new Map<string, string[]>();
  for (const file of files) {
    const text = readFileSync(new URL(file, root), "utf8");
    for (const [, name] of text.matchAll(/^export (?:async )?(?:function|const|class) (\w+)/gm)) {
      names.set(name!, [...(names.get(name!) ?? []), file]);
    }
  }
  return names;
}

/** The names a file imports from other files of the project, as "path: name". */
export function importedNames(file: string): string[] {
  const text = readFileSync(new URL(file, root), "utf8");
  return [...text.matchAll(/^import (?:type )?\{([^}]*)\} from "(\.[^"]*)"/gm)].flatMap(([, names, from]) => {
    const path = posix.join(posix.dirname(file), from!);
    return names!.split(",").map((name) => `${path}: ${name.trim().replace(/^type | as .*$/g, "")}`);
  });
}

/** The address a module is imported by. */
export function addressOf(file: string): string {
  return fileURLToPath(new URL(file, root));
}
