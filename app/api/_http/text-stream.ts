/** Bytes as a body that is sent piece by piece, each made when the one before it has gone. */
export function byteStream(pieces: AsyncGenerator<Uint8Array>): ReadableStream<Uint8Array> {
  return new ReadableStream({
    async pull(controller) {
      const { done, value } = await pieces.next();
      if (done) controller.close();
      else controller.enqueue(value);
    },
    async cancel() {
      await pieces.return(undefined);
    },
  });
}

/** The same of text, as UTF-8. */
export const textStream = (pieces: AsyncGenerator<string>): ReadableStream<Uint8Array> => byteStream(encoded(pieces));

async function* encoded(pieces: AsyncGenerator<string>): AsyncGenerator<Uint8Array> {
  const encoder = new TextEncoder();
  for await (const piece of pieces) yield encoder.encode(piece);
}
