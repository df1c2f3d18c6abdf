import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import path from "node:path";

function filesUnder(root, place) {
  const full = path.join(root, place);
  if (!existsSync(full)) return [];
  if (!statSync(full).isDirectory()) return [place];
  return readdirSync(full).flatMap((name) => filesUnder(root, `${place}/${name}`));
}

/**
 * One word for the contents of all these files and folders: it changes when a file is changed, added, renamed or
 * removed, and not when one is merely touched, so that a fresh checkout of the same sources needs no second build.
 * @param {string} root
 * @param {string[]} places relative to the root; those that do not exist count as absent
 */
export function fingerprint(root, places) {
  const whole = createHash("sha256");
  for (const file of places.flatMap((place) => filesUnder(root, place)).sort()) {
    whole.update(`${file}\0`).update(
      createHash("sha256")
        .update(readFileSync(path.join(root, file)))
        .digest(),
    );
  }
  return whole.digest("hex");
}
