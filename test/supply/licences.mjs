// The licences of everything that is installed with the package, as the table in test/supply/licences.md. Run by itself it
// writes that file anew: node test/supply/licences.mjs
import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const root = new URL("../../", import.meta.url);
const json = (path) => JSON.parse(readFileSync(new URL(path, root), "utf8"));

export const TABLE = "test/supply/licences.md";

/** Installed with the package, from the lock file; what only builds and tests it is left out. */
export function installed() {
  const { packages } = json("package-lock.json");
  return Object.entries(packages)
    .filter(([path, { dev }]) => path !== "" && !dev)
    .map(([path, { version, license }]) => {
      const { license: own } = json(`${path}/package.json`);
      return { name: path.replace(/^.*node_modules\//, ""), version, licence: license, own };
    })
    .sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : a.version < b.version ? -1 : 1));
}

export function table() {
  const { dependencies } = json("package.json");
  const rows = installed().map(({ name, version, licence }) => {
    const why = dependencies[name] === version ? "asked for" : "brought along";
    return `| ${name} | ${version} | ${licence} | ${why} |`;
  });
  return `# Licences

Gainscape is under the MIT licence. It installs these packages from the registry and ships none of their code. Made by
\`node test/supply/licences.mjs\` from the lock file.

exp, ln, sin, cos, atan2 and pow (\`src/base\`) follow fdlibm by Sun Microsystems; its notices stand in their files, as
they are shipped, and in the page's script.

| package | version | licence | why |
| --- | --- | --- | --- |
${rows.join("\n")}
`;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) writeFileSync(new URL(TABLE, root), table());
