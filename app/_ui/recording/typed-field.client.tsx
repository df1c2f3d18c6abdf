"use client";

import { NativeSelect, Textarea, TextInput } from "@mantine/core";
import type { FieldProblems } from "../asking/field-problems.ts";

/** The fields of one form as typed, and what became of the last asking. */
export interface FormState<F> {
  readonly fields: F;
  readonly set: (more: Partial<F>) => void;
  readonly problems: FieldProblems;
}

type TextKey<F> = { [K in keyof F]: F[K] extends string ? K : never }[keyof F] & string;
interface Field<F> {
  readonly of: FormState<F>;
  readonly name: TextKey<F>;
  readonly label: string;
  readonly help?: string;
}

const common = <F,>({ of, name, label, help }: Field<F>) => ({
  name,
  label,
  ...(help === undefined ? {} : { description: help }),
  // What is in `F` under a key of its texts is a text.
  value: of.fields[name] as string,
  error: of.problems[name],
  autoComplete: "off",
});

const textOf = <F,>(name: TextKey<F>, value: string): Partial<F> => ({ [name]: value }) as Partial<F>;

export function Figure<F>(props: Field<F>) {
  return (
    <TextInput
      {...common(props)}
      inputMode="decimal"
      onChange={(event) => props.of.set(textOf<F>(props.name, event.currentTarget.value))}
    />
  );
}

/** `latest`: the last day that is taken; none: any day to come may be told. */
export function Day<F>(props: Field<F> & { readonly latest?: string }) {
  return (
    <TextInput
      {...common(props)}
      type="date"
      {...(props.latest === undefined ? {} : { max: props.latest })}
      onChange={(event) => props.of.set(textOf<F>(props.name, event.currentTarget.value))}
    />
  );
}

export function Words<F>(props: Field<F> & { readonly long?: boolean }) {
  const Box = props.long === true ? Textarea : TextInput;
  return (
    <Box
      {...common(props)}
      {...(props.long === true ? { autosize: true, minRows: 2 } : {})}
      onChange={(event) => props.of.set(textOf<F>(props.name, event.currentTarget.value))}
    />
  );
}

export function Choice<F>(
  props: Field<F> & { readonly options: readonly { readonly value: string; readonly label: string }[] },
) {
  return (
    <NativeSelect
      {...common(props)}
      data={[...props.options]}
      onChange={(event) => props.of.set(textOf<F>(props.name, event.currentTarget.value))}
    />
  );
}

/** The options of a choice out of a list of words, with one that leaves it open. */
export const optionsOf = <W extends string>(
  words: readonly W[],
  labels: Readonly<Record<W, string>>,
  open: string | null = "choose",
) => [
  ...(open === null ? [] : [{ value: "", label: open }]),
  ...words.map((word) => ({ value: word, label: labels[word] })),
];
