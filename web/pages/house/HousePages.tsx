import type { Me } from "../../net/keep.ts";
import { HouseStartsPage } from "../history/HouseStartsPage.tsx";
import { SearchPage } from "../search/SearchPage.tsx";
import { HousePage } from "./HousePage.tsx";

/** The house's pages: its rules, how its starts went, and the search. */
export function HousePages({ page, asked, me }: { page: string | undefined; asked: string; me: Me }) {
  if (page === "starts") return <HouseStartsPage />;
  if (page === "search") return <SearchPage key={asked} asked={asked} />;
  return <HousePage me={me} />;
}
