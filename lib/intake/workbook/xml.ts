import { SaxesParser } from "saxes";
import { UnreadableFile } from "../text-blocks.ts";

/** What the readers of a workbook's parts take from its XML. Names are local: the prefix of a namespace is left off. */
export interface XmlReader {
  readonly open?: (name: string, attributes: Readonly<Record<string, string>>) => void;
  readonly text?: (text: string) => void;
  readonly close?: (name: string) => void;
}

/**
 * A text or tag of more characters than this is no cell (a spreadsheet's cells hold 32,767): the parser would gather it in
 * memory to its end.
 */
const longestPiece = 1 << 22;

const localName = (name: string) => name.slice(name.indexOf(":") + 1);

/**
 * Reads a part's XML piece by piece; yields after each piece, so that what the reader gathered can be taken on. Throws
 * `UnreadableFile` where it is no XML. Entities that the document defines itself are errors, so none can be made to
 * swell; nothing outside is ever fetched.
 */
export async function* readXml(pieces: AsyncIterable<Uint8Array>, reader: XmlReader): AsyncGenerator<void> {
  const parser = new SaxesParser({ xmlns: false, position: false });
  const decoder = new TextDecoder("utf-8", { fatal: true });
  let quiet = 0;
  parser.on("error", () => {
    throw new UnreadableFile("workbook-damaged");
  });
  parser.on("opentag", ({ name, attributes }) => {
    quiet = 0;
    reader.open?.(localName(name), attributes);
  });
  parser.on("text", (text) => {
    quiet = 0;
    reader.text?.(text);
  });
  parser.on("closetag", ({ name }) => {
    quiet = 0;
    reader.close?.(localName(name));
  });
  const feed = (decode: () => string) => {
    let text: string;
    try {
      text = decode();
    } catch {
      throw new UnreadableFile("workbook-damaged");
    }
    quiet += text.length;
    parser.write(text);
    if (quiet > longestPiece) throw new UnreadableFile("workbook-damaged");
  };
  for await (const piece of pieces) {
    feed(() => decoder.decode(piece, { stream: true }));
    yield;
  }
  feed(() => decoder.decode());
  parser.close();
  yield;
}

/** Reads a part that is small enough to be read at once. */
export async function readWholeXml(pieces: AsyncIterable<Uint8Array>, reader: XmlReader): Promise<void> {
  for await (const _ of readXml(pieces, reader)) void _;
}
