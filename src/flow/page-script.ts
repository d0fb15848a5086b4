// The script that the report's page carries, as the build made it.
import { readPart } from "../files/part.js";

/** The script's text; it lies beside src and dist alike. */
export const pageScript = (): string => readPart(new URL("../../dist/page/script.js", import.meta.url));
