import { join } from "node:path";
import { API, type Diagnostic, type Project, type Snapshot } from "typescript/unstable/sync";

/**
 * One process of the compiler on the whole project, which answers for a file whose text is another than the one on disk.
 * Nothing is written. The interface is not stable yet; the version of the compiler is pinned.
 */
export class Compiler {
  private readonly root: string;
  private readonly config: string;
  private readonly api: API;
  private readonly texts = new Map<string, string>();
  private snapshot: Snapshot;

  /** @param folders what is compiled, by the settings of the project; an import left unused is no error here */
  constructor(root: string, folders: readonly string[]) {
    this.root = root;
    this.config = join(root, "tsconfig.removed.json");
    const settings = {
      extends: "./tsconfig.json",
      compilerOptions: { noUnusedLocals: false },
      include: folders,
    };
    this.texts.set(this.config, JSON.stringify(settings));
    this.api = new API({
      cwd: root,
      fs: {
        readFile: (file) => this.texts.get(file),
        fileExists: (file) => this.texts.has(file) || undefined,
      },
    });
    this.snapshot = this.api.updateSnapshot({ openProjects: [this.config] });
  }

  /** Returns what is wrong in `inFiles` as they stand. */
  faults(inFiles: readonly string[]): string[] {
    return faultsIn(this.project(), this.pathsOf(inFiles));
  }

  /** Returns what is wrong in `inFiles` while `file` has this text. */
  faultsWith(file: string, text: string, inFiles: readonly string[]): string[] {
    const [path = ""] = this.pathsOf([file]);
    this.texts.set(path, text);
    this.read(path);
    const faults = this.faults(inFiles);
    this.texts.delete(path);
    this.read(path);
    return faults;
  }

  close(): void {
    this.api.close();
  }

  private read(path: string): void {
    const next = this.api.updateSnapshot({ fileChanges: { changed: [path] } });
    this.snapshot.dispose();
    this.snapshot = next;
  }

  private project(): Project {
    const project = this.snapshot.getProject(this.config);
    if (!project) throw new Error("the compiler does not have the project");
    return project;
  }

  private pathsOf(files: readonly string[]): string[] {
    return files.map((file) => join(this.root, file));
  }
}

function faultsIn({ program }: Project, paths: readonly string[]): string[] {
  const told = ({ fileName, text }: Diagnostic) => `${fileName}: ${text}`;
  return paths.flatMap((path) => {
    if (!program.getSourceFile(path)) throw new Error(`${path} is not compiled`);
    return [...program.getSyntacticDiagnostics(path), ...program.getSemanticDiagnostics(path)].map(told);
  });
}
