import "../../styles/register.css";
import type { Me } from "../../net/keep.ts";
import type { AircraftRoute } from "../route.ts";
import { AddAircraft } from "./AddAircraft.tsx";
import { AircraftList } from "./AircraftList.tsx";
import { AircraftPage } from "./AircraftPage.tsx";

/** The pages of the aircraft in the house's register. */
export function AircraftPages({
  page,
  me,
  changed,
}: {
  page: Exclude<AircraftRoute, { is: "history" }>;
  me: Me;
  changed: number;
}) {
  switch (page.is) {
    case "list":
      return <AircraftList me={me} changed={changed} />;
    case "new":
      return <AddAircraft />;
    case "one":
      return <AircraftPage key={page.id} id={page.id} me={me} changed={changed} />;
  }
}
