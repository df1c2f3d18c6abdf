"use client";

import { Button, NativeSelect, TextInput } from "@mantine/core";
import { useRouter } from "next/navigation";
import { type FormEvent, useRef, useState, useTransition } from "react";
import { longestName } from "../../../lib/schema/longest-name.ts";
import { sentenceWords } from "../../../lib/wording.ts";
import { type FleetView, fleetAddress, fleetAddressFields, fleetSorts, groupings } from "./address.ts";
import { orders } from "./view-words.ts";

export interface FleetOptions {
  readonly depots: readonly string[];
  readonly models: readonly { readonly id: string; readonly name: string }[];
}

const orderChoices = fleetSorts.map((sort) => ({ value: sort, label: sentenceWords(orders[sort]) }));
const sortOf = (text: string): FleetView["sort"] => fleetSorts.find((sort) => sort === text) ?? "due";

/**
 * Search, depot, engine model, and what the table is grouped by; on small screens also its order, for the heads of its
 * columns are not drawn there. A plain GET form, so that it works without script; with
 * script the address stays free of empty fields, and a choice takes effect at once.
 */
export function FilterForm({ view, options }: { readonly view: FleetView; readonly options: FleetOptions }) {
  const router = useRouter();
  const form = useRef<HTMLFormElement>(null);
  const [pending, startTransition] = useTransition();
  const asked = {
    search: view.search,
    depot: view.depot ?? "",
    model: view.model ?? "",
    group: view.group ?? "",
    sort: view.sort as string,
  };
  const [fields, setFields] = useState(asked);
  const address = JSON.stringify(asked);
  const [told, setTold] = useState(address);
  // The address was changed from elsewhere (a count, "show all", the browser's Back): the fields follow it.
  if (told !== address) {
    setTold(address);
    setFields(asked);
  }

  const show = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const now = new FormData(event.currentTarget);
    const text = (name: string) => String(now.get(name) ?? "").trim();
    const change = {
      search: text("search"),
      depot: text("depot") || null,
      model: text("model") || null,
      group: groupings.find((grouping) => grouping === text("group")) ?? null,
      ...(text("sort") === view.sort ? {} : { sort: sortOf(text("sort")), descending: false }),
    };
    startTransition(() => router.push(fleetAddress(view, change), { scroll: false }));
  };
  const choose = (field: "depot" | "model" | "group" | "sort", value: string) => {
    setFields({ ...fields, [field]: value });
    form.current?.requestSubmit();
  };
  const others = fleetAddressFields({
    ...view,
    search: "",
    depot: null,
    model: null,
    group: null,
    sort: sortOf(""),
    page: 1,
  });

  return (
    <form ref={form} action="/" method="get" className="filters" onSubmit={show} aria-busy={pending}>
      {others.map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <TextInput
        name="search"
        type="search"
        aria-label="Find by unit, engine, depot, model or weakest place"
        placeholder="Unit, engine or cause"
        maxLength={longestName}
        value={fields.search}
        onChange={(event) => setFields({ ...fields, search: event.currentTarget.value })}
        className="filter-search"
      />
      <NativeSelect
        name="depot"
        aria-label="Depot"
        value={fields.depot}
        onChange={(event) => choose("depot", event.currentTarget.value)}
        data={[{ value: "", label: "All depots" }, ...options.depots]}
        className="filter-select"
      />
      <NativeSelect
        name="model"
        aria-label="Engine model"
        value={fields.model}
        onChange={(event) => choose("model", event.currentTarget.value)}
        data={[
          { value: "", label: "All models" },
          ...options.models.map(({ id, name }) => ({ value: id, label: name })),
        ]}
        className="filter-select"
      />
      <NativeSelect
        name="group"
        aria-label="Groups"
        value={fields.group}
        onChange={(event) => choose("group", event.currentTarget.value)}
        data={[
          { value: "", label: "No groups" },
          { value: "depot", label: "By depot" },
          { value: "model", label: "By model" },
          { value: "band", label: "By band" },
        ]}
        className="filter-select"
      />
      <NativeSelect
        name="sort"
        aria-label="Order"
        value={fields.sort}
        onChange={(event) => choose("sort", event.currentTarget.value)}
        data={orderChoices}
        className="filter-select sort-select"
      />
      <Button type="submit" variant="default">
        Search
      </Button>
    </form>
  );
}
