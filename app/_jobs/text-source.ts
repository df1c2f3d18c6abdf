import type { ImportSource } from "./import-source.ts";

/** Text as a file to import. */
export function textSource(name: string, text: string): ImportSource {
  const bytes = new TextEncoder().encode(text);
  return {
    name,
    bytes: bytes.length,
    open: async function* () {
      yield bytes;
    },
  };
}
