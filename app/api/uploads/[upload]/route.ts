import { z } from "zod";
import { readSettings } from "../../../../db/settings.ts";
import { uploadLimits } from "../../../_ui/import/limits.ts";
import { answer, queryFields } from "../../_http/answers.ts";
import { addFile, endUpload, uploadRefusal } from "../../_http/uploads.ts";
import { writing } from "../../_http/writing.ts";

interface Context {
  readonly params: Promise<{ readonly upload: string }>;
}

const fields = z.object({ name: z.string().trim().min(1, "Give the file's name as ?name=") });

/** Adds one file, its bytes being the body of the request and its name the field `name` of the address. */
export const POST = (request: Request, { params }: Context) =>
  writing(request, async ({ store, act }) => {
    const asked = queryFields(request, fields);
    if (!asked.ok) return asked.response;
    const announced = Number(request.headers.get("content-length") ?? 0);
    const limits = uploadLimits(await readSettings(store));
    const { name } = asked.value;
    const failed =
      announced > limits.bytes
        ? "too-large"
        : await addFile((await params).upload, { name, body: request.body, now: act.now.getTime(), limits });
    return failed === null ? answer({ name }, 201) : uploadRefusal(failed, limits);
  });

/** Gives the upload up: its files are deleted. */
export const DELETE = (request: Request, { params }: Context) =>
  writing(request, async ({ store }) =>
    (await endUpload((await params).upload))
      ? answer({ deleted: true })
      : uploadRefusal("unknown-upload", uploadLimits(await readSettings(store))),
  );
