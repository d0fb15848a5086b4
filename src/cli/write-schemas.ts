// Part of the build: writes the editor schemas beside the files they describe.
import { join } from "node:path";
import { writeWhole } from "../files/write.js";
import { editorSchemas } from "../flow/editor-schemas.js";

const [folder = "."] = process.argv.slice(2);
for (const [file, text] of editorSchemas()) writeWhole(join(folder, file), text);
