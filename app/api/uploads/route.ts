import { readSettings } from "../../../db/settings.ts";
import { uploadLimits } from "../../_ui/import/limits.ts";
import { answer } from "../_http/answers.ts";
import { beginUpload, uploadRefusal } from "../_http/uploads.ts";
import { writing } from "../_http/writing.ts";

/** Begins an upload: `{ "upload": id }`, to which files are then sent one by one. */
export const POST = (request: Request) =>
  writing(request, async ({ store, act }) => {
    const upload = await beginUpload(act.now.getTime());
    return upload === null
      ? uploadRefusal("too-many-uploads", uploadLimits(await readSettings(store)))
      : answer({ upload }, 201);
  });
