const longest = 120;

/**
 * A name under which a file may be saved, made of one that somebody gave: the last part of its path, without signs that a
 * system or a header could take for something else, and with a beginning that hides nothing.
 */
export function harmlessFileName(given: string): string {
  const last = given.split(/[\\/]/).at(-1) ?? "";
  const plain = last
    .normalize("NFC")
    .replace(/[^\p{L}\p{N} ._()-]+/gu, "_")
    .replace(/^[\s.]+|[\s.]+$/g, "");
  if (plain.length <= longest) return plain === "" ? "file" : plain;
  const end = /\.[\p{L}\p{N}]{1,8}$/u.exec(plain)?.[0] ?? "";
  return plain.slice(0, longest - end.length) + end;
}

/**
 * The header by which a browser saves what comes under a name (RFC 6266), for those that read only ASCII as well. `inline`: it may
 * as well show it.
 */
export function savedAs(given: string, how: "attachment" | "inline" = "attachment"): string {
  const name = harmlessFileName(given);
  const ascii = name.normalize("NFKD").replace(/[^\x20-\x7e]/g, "");
  return `${how}; filename="${ascii.trim() || "file"}"; filename*=UTF-8''${encodeURIComponent(name)}`;
}
