"use client";

import { usePathname } from "next/navigation";
import { AppLink } from "../app-link.client.tsx";
import { isHere, places } from "./places.ts";

export function PlaceLinks() {
  const pathname = usePathname();
  return (
    <ul className="place-links">
      {places.map(({ href, title }) => (
        <li key={href}>
          <AppLink variant="bare" href={href} {...(isHere(href, pathname) ? { "aria-current": "page" as const } : {})}>
            {title}
          </AppLink>
        </li>
      ))}
    </ul>
  );
}
