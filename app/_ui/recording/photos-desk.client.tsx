"use client";

import { Button, NativeSelect } from "@mantine/core";
import { useRouter } from "next/navigation";
import { useState, useTransition } from "react";
import { askServer } from "../ask-server.client.ts";
import { useUnkept } from "../asking/use-unkept.client.ts";
import { ErrorNote } from "../error-note.tsx";
import { NeedsScript } from "../needs-script.tsx";
import { ScriptedFields } from "../scripted-fields.client.tsx";
import { useListening } from "../use-listening.client.ts";
import { type GivenPhotos, PhotoPicker, type PhotosOf, sendPhotos } from "./photo-picker.client.tsx";
import { takePhotoAway } from "./record-actions.ts";

/** Adds photos to a repair that is on file. */
export function AddPhotos({ repairs }: { readonly repairs: readonly (PhotosOf & { readonly title: string })[] }) {
  const router = useRouter();
  const [chosen, setChosen] = useState(0);
  const [photos, setPhotos] = useState<GivenPhotos>({ files: [], problem: null });
  useUnkept(photos.files.length > 0);
  const [pending, startTransition] = useTransition();
  const { title: _title, ...repair } = repairs[chosen] ?? { unit: "", date: "", scope: "", cylinders: "", title: "" };
  return (
    <form
      className="house-form"
      onSubmit={(event) => {
        event.preventDefault();
        startTransition(async () => {
          setPhotos(await sendPhotos(repair, photos.files));
          router.refresh();
        });
      }}
    >
      <ScriptedFields>
        <div className="field-row">
          <NativeSelect
            label="Repair"
            value={String(chosen)}
            data={repairs.map(({ title }, i) => ({ value: String(i), label: title }))}
            onChange={(event) => setChosen(Number(event.currentTarget.value))}
          />
          <PhotoPicker photos={photos} onChange={setPhotos} />
        </div>
        <div className="form-buttons">
          <Button type="submit" variant="default" loading={pending} disabled={photos.files.length === 0}>
            Add the photos
          </Button>
        </div>
      </ScriptedFields>
    </form>
  );
}

/** Takes one photo out of sight. `of`: which one, for a screen reader. */
export function TakePhotoAway({ photo, of }: { readonly photo: number; readonly of: string }) {
  const router = useRouter();
  const isListening = useListening();
  const [problem, setProblem] = useState<string | null>(null);
  const [pending, startTransition] = useTransition();
  return (
    <>
      <NeedsScript />
      <Button
        variant="default"
        size="compact-sm"
        disabled={!isListening}
        loading={pending}
        onClick={() =>
          startTransition(async () => {
            setProblem(
              await askServer(
                () => takePhotoAway(photo),
                (why) => why,
              ),
            );
            router.refresh();
          })
        }
      >
        Take away<span className="visually-hidden"> {of}</span>
      </Button>
      {problem !== null && <ErrorNote happened={problem} />}
    </>
  );
}
