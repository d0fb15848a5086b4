// Part of the build: writes the editor schemas beside the files they describe.
import { join } from "node:path";
import { writeAtomically } from "../files/write.js";
import { editorSchemas } from "../flow/editor-schemas.js";

const [folder = "."] = process.argv.slice(2);
for (const [file, text] of editorSchemas()) writeAtomically(join(folder, file), text);
