// npm run release [-- <folder>]: writes one archive that starts on Node alone, without a network: the built server and
// panels with the locked production packages of this platform; beside it its SHA-256 and a CycloneDX list of packages.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { cpSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { root } from "./fresh.mjs";
import { ensureInstalled } from "./install.mjs";
import { prepare } from "./prepare.mjs";
import { Failed, fail } from "./run.mjs";

/** Packages that only build: the archive holds what they made. */
const BUILD_ONLY = ["@vitejs/plugin-react", "prisma", "typescript", "vite"];

/** The files of the archive besides packages. The sources serve the commands of OPERATING.md. */
const PARTS = [
  ...["package.json", "package-lock.json", "LICENSE", "README.md"],
  ...["server", "shared", "prisma", "seed", "web/dist", "web/words", "web/README.md"],
];

/**
 * Returns the folders in node_modules of every package that runs: what the production dependencies lead to by the lock
 * file, as far as it is installed on this platform.
 */
export function runtimePackages() {
  const { packages } = JSON.parse(readFileSync(join(root, "package-lock.json"), "utf8"));
  const found = new Set();
  const visit = (from, name, optional) => {
    // Node looks beside the package that asks first, then in each folder above it.
    let at = from;
    for (;;) {
      const path = `${at === "" ? "" : `${at}/`}node_modules/${name}`;
      if (packages[path]) return take(path, optional);
      if (at === "") break;
      at = at.includes("/node_modules/") ? at.slice(0, at.lastIndexOf("/node_modules/")) : "";
    }
    if (!optional)
      throw new Failed(`the lock file has no ${name}, which ${from || "this program"} needs, and`, 1);
  };
  const take = (path, optional) => {
    if (found.has(path)) return;
    if (!existsSync(join(root, path))) {
      if (optional || packages[path].optional) return;
      throw new Failed(`${path} is not installed and`, 1);
    }
    found.add(path);
    const {
      dependencies = {},
      optionalDependencies = {},
      peerDependencies = {},
      peerDependenciesMeta = {},
    } = packages[path];
    for (const name of Object.keys(dependencies)) visit(path, name, name in optionalDependencies);
    for (const name of Object.keys(optionalDependencies)) visit(path, name, true);
    for (const name of Object.keys(peerDependencies))
      if (!BUILD_ONLY.includes(name)) visit(path, name, peerDependenciesMeta[name]?.optional === true);
  };
  for (const name of Object.keys(packages[""].dependencies))
    if (!BUILD_ONLY.includes(name)) visit("", name, false);
  return [...found].sort();
}

/** Writes the archive into a folder. Returns its path. */
export function release(into) {
  const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
  const name = `chockside-${version}-${process.platform}-${process.arch}`;
  const stage = join(into, name);
  rmSync(stage, { recursive: true, force: true });
  mkdirSync(stage, { recursive: true });
  for (const part of PARTS) cpSync(join(root, part), join(stage, part), { recursive: true });
  // A package's folder holds those that are its own; each of these is in the list by itself.
  for (const path of runtimePackages())
    cpSync(join(root, path), join(stage, path), {
      recursive: true,
      filter: (source) => !source.slice(join(root, path).length).includes("/node_modules"),
    });
  const bom = call("npm", ["sbom", "--package-lock-only", "--sbom-format=cyclonedx", "--omit=dev"], root);
  writeFileSync(join(into, `${name}.cdx.json`), bom);
  const archive = `${name}.tar.gz`;
  // The same sources give the same bytes: sorted names, one time, no owner.
  const same = ["--sort=name", "--mtime=@0", "--owner=0", "--group=0", "--numeric-owner"];
  call("tar", [...same, "-czf", archive, name], into, { GZIP: "-n" });
  rmSync(stage, { recursive: true });
  const digest = createHash("sha256")
    .update(readFileSync(join(into, archive)))
    .digest("hex");
  writeFileSync(join(into, `${archive}.sha256`), `${digest}  ${archive}\n`);
  return join(into, archive);
}

function call(program, args, cwd, env = {}) {
  const most = 64 * 1024 * 1024;
  const ended = spawnSync(program, args, {
    cwd,
    encoding: "utf8",
    maxBuffer: most,
    env: { ...process.env, ...env },
  });
  if (ended.status !== 0) throw new Failed(`${program} ${args[0]}: ${ended.stderr}`, ended.status ?? 1);
  return ended.stdout;
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  try {
    await ensureInstalled();
    await prepare("client", "web", "server");
    console.log(`chockside: ${release(resolve(process.argv[2] ?? join(root, "release")))}`);
  } catch (error) {
    fail(error);
  }
}
