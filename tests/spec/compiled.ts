import { join, relative } from "node:path";
import { API } from "typescript/unstable/sync";

/**
 * Compiles files that are not on disk, in one run and with the settings of the project, except that an unused name is no
 * error. Returns the errors of each file in the program, the imported ones included. The compiler's interface is not
 * stable, and its version is pinned.
 * @param texts file name from the root of the project to its text
 */
export function errorsOf(root: string, texts: ReadonlyMap<string, string>): Map<string, string[]> {
  const config = join(root, "tsconfig.compiled.json");
  const at = new Map([...texts].map(([file, text]) => [join(root, file), text]));
  at.set(
    config,
    JSON.stringify({
      extends: "./tsconfig.json",
      compilerOptions: { noUnusedLocals: false },
      include: [],
      files: [...at.keys()],
    }),
  );
  const api = new API({
    cwd: root,
    fs: { readFile: (file) => at.get(file), fileExists: (file) => at.has(file) || undefined },
  });
  try {
    const project = api.updateSnapshot({ openProjects: [config] }).getProject(config);
    if (!project) throw new Error("the compiler did not open the project");
    const { program } = project;
    const settings = [...program.getConfigFileParsingDiagnostics(), ...program.getProgramDiagnostics()];
    if (settings[0]) throw new Error(settings[0].text);
    const errors = new Map(
      program.getSourceFileNames().map((file): [string, string[]] => [relative(root, file), []]),
    );
    for (const { fileName = "", text } of [
      ...program.getSyntacticDiagnostics(),
      ...program.getSemanticDiagnostics(),
    ])
      errors.get(relative(root, fileName))?.push(text);
    return errors;
  } finally {
    api.close();
  }
}
