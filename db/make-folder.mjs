import { existsSync, mkdirSync, statSync } from "node:fs";
import path from "node:path";

/**
 * Makes the folder and those above it that are missing; throws what the system says where one cannot be made. One by
 * one, for where the system answers that nothing can be made, as below /proc, Node's own recursion never ends.
 * In plain JavaScript, because `npm start` needs it before anything is built.
 * @param {string} folder
 */
export function makeFolder(folder) {
  const missing = [];
  let at = path.resolve(folder);
  while (!existsSync(at)) {
    missing.unshift(at);
    at = path.dirname(at);
  }
  for (const one of missing) {
    try {
      mkdirSync(one);
    } catch (error) {
      // Another process may have made it meanwhile.
      if (error.code !== "EEXIST" || !statSync(one, { throwIfNoEntry: false })?.isDirectory()) throw error;
    }
  }
}
