import { z } from "zod";
import { addPhoto } from "../../../db/photos.ts";
import { piecesOf } from "../../../lib/intake/text-blocks.ts";
import { cylinderList } from "../../../lib/schema/cells.ts";
import { largestPhotoBytes, longestPhotoName, mostPhotos, photoTypeOf } from "../../../lib/schema/photo.ts";
import { repairScopes } from "../../../lib/schema/words.ts";
import { doerOf } from "../../_jobs/progress.ts";
import { answer, queryFields, refusal } from "../_http/answers.ts";
import { writing } from "../_http/writing.ts";

const fields = z.object({
  unit: z.string().min(1),
  date: z.iso.date(),
  scope: z.enum(repairScopes),
  cylinders: cylinderList.schema,
  name: z.string().trim().min(1).max(longestPhotoName),
});

/** Adds a photo to a repair, its bytes being the body of the request: `{ "photo": id }`. */
export const POST = (request: Request) =>
  writing(request, async ({ store, act }) => {
    const asked = queryFields(request, fields);
    if (!asked.ok) return asked.response;
    const bytes = await boundedBytes(request);
    if (bytes === null) {
      return refusal(413, `A photo may have up to ${largestPhotoBytes / 1_000_000} MB; this one has more.`);
    }
    const type = photoTypeOf(bytes);
    if (type === null) return refusal(415, "This is no JPEG, PNG or WebP image, so it was not kept.");
    const { name, ...repair } = asked.value;
    const photo = await addPhoto(store, repair, { name, type, bytes }, doerOf(act));
    if (photo === "unknown-repair")
      return refusal(404, "This repair is not on file any more, so the photo was not kept.");
    if (photo === "too-many")
      return refusal(409, `A repair may have up to ${mostPhotos} photos; this one was not kept.`);
    return answer({ photo }, 201);
  });

/** The body; null: it is larger than a photo may be, and was not read to its end. */
async function boundedBytes(request: Request): Promise<Buffer | null> {
  const pieces: Uint8Array[] = [];
  let size = 0;
  for await (const piece of request.body === null ? [] : piecesOf(request.body)) {
    const bytes = typeof piece === "string" ? new TextEncoder().encode(piece) : piece;
    size += bytes.length;
    if (size > largestPhotoBytes) return null;
    pieces.push(bytes);
  }
  return Buffer.concat(pieces);
}
