import { useEffect, useState } from "react";
import type { Figure } from "../../shared/figures/figure.ts";
import { plannedOrderFigure } from "../../shared/figures/order.ts";
import type { UnitChoice } from "../../shared/models/unitChoice.ts";
import { adviceOn, questionFor } from "../../shared/plan/orderAdvice.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { type RegisteredAircraft, aircraft as register } from "../net/aircraft.ts";
import type { PersonRow } from "../net/api.ts";
import { api } from "../net/app.ts";
import { Caution } from "../posts/shared/Caution.tsx";
import { StandPlanned } from "../posts/shared/Stand.tsx";
import { workedRow } from "../posts/shared/workedRow.ts";
import "../styles/planning.css";
import "../styles/worked.css";
import { Trouble } from "../ui/Trouble.tsx";
import { useUnits } from "../ui/units.ts";
import { WorkedFigures } from "../ui/WorkedFigures.tsx";
import type { Words } from "../words/catalogue.ts";
import { usePlannedWords } from "../words/planned.ts";
import { useWords } from "../words/words.ts";
import { AircraftChoice } from "./AircraftChoice.tsx";
import { CrewFields, NOBODY } from "./CrewFields.tsx";
import { type NearEntry, NeighbourFields, nearOf } from "./NeighbourFields.tsx";
import { OrderKeys, orderMarks, touched } from "./OrderPlan.tsx";
import { PlanStep } from "./PlanStep.tsx";
import { PowerKeys } from "./PowerKeys.tsx";
import { go } from "./route.ts";
import { NO_STAND, StandFields, standOf } from "./StandFields.tsx";

/**
 * Plans a start: aircraft, place, engines' order touched on the plan, power and people.
 * @param wanted the aircraft whose page led here
 */
export function PlanPage({ wanted }: { wanted: string | null }) {
  const units = useUnits();
  const all = useWords();
  const { text } = all;
  const planned = usePlannedWords();
  const words = planned.planning;
  const [aircraft, setAircraft] = useState<RegisteredAircraft[] | null>(null);
  const [people, setPeople] = useState<PersonRow[]>([]);
  const [chosen, setChosen] = useState<RegisteredAircraft | null>(null);
  const [type, setType] = useState<AircraftType | null>(null);
  const [order, setOrder] = useState<number[]>([]);
  const [place, setPlace] = useState("");
  const [stand, setStand] = useState(NO_STAND);
  const [near, setNear] = useState<NearEntry[]>([]);
  const [why, setWhy] = useState("");
  const [power, setPower] = useState<"groundPower" | "batteries">("groundPower");
  const [crew, setCrew] = useState(NOBODY);
  const [trouble, setTrouble] = useState<Error | null>(null);
  const [commandId] = useState(() => crypto.randomUUID());
  const [busy, setBusy] = useState(false);
  const failed = (error: Error) => {
    setTrouble(error);
    setBusy(false);
  };
  // biome-ignore lint/correctness/useExhaustiveDependencies: fetch once
  useEffect(() => {
    register.list().then((rows) => {
      setAircraft(rows);
      const row = rows.find((a) => a.id === wanted && a.bar === null);
      if (row) choose(row);
    }, failed);
    api.people().then(setPeople, failed);
  }, []);
  const choose = (row: RegisteredAircraft) => {
    setChosen(row);
    setType(null);
    // The home stand is offered; what somebody typed stays.
    if (place === "" || place === chosen?.stand) setPlace(row.stand ?? "");
    api.type(row.typeId, row.typeVersion).then((t) => {
      setType(t);
      setOrder(t.defaultOrder);
    }, failed);
  };
  const plan = () => {
    if (!chosen) return;
    setBusy(true);
    api
      .planSession({
        ...{ commandId, aircraft: chosen.id, typeVersion: chosen.typeVersion, place: place.trim() },
        ...{ order, powerSource: power, crew },
        ...standOf(stand),
        ...(entered.near.length > 0 ? { neighbours: entered.near } : {}),
        ...(otherwise && why.trim() !== "" ? { orderReason: why.trim() } : {}),
      })
      .then(({ id }) => go(`/session/${id}`), failed);
  };
  const heading = standOf(stand).headingDeg;
  const entered = nearOf(near, heading, planned);
  const advised = type && order.length > 0 ? adviceOn(questionFor(type, order, heading), order) : null;
  const worked =
    type && order.length > 0
      ? given(plannedOrderFigure(questionFor(type, order, heading), order), units, all)
      : [];
  const otherwise = advised !== null && advised.order.join() !== order.join();
  const needed = [
    type === null ? words.needs.aircraft : null,
    type !== null && place.trim() === "" ? words.needs.place : null,
    type !== null && order.length === 0 ? words.needs.engine : null,
    entered.fault === null ? null : words.needs.near,
    otherwise && why.trim() === "" ? words.needs.why : null,
  ].filter((n) => n !== null);
  return (
    <main className="page plan-page">
      <header className="page-head page-head-row">
        <h1>{words.title}</h1>
        <nav className="head-keys">
          <button type="button" className="answer" data-tone="plain" onClick={() => go("/")}>
            {text.ramp.back}
          </button>
        </nav>
      </header>
      <div className="plan-columns">
        <PlanStep n={1} title={words.aircraft}>
          <AircraftChoice
            rows={aircraft}
            chosen={chosen?.id ?? null}
            onChoose={choose}
            asking={aircraft === null && trouble === null}
          />
        </PlanStep>
        {type && chosen && (
          <>
            <PlanStep n={2} title={words.where}>
              <div className="plan-place">
                <label className="field">
                  <span>{words.place}</span>
                  <input
                    name="place"
                    value={place}
                    maxLength={60}
                    placeholder={words.placeLike}
                    onChange={(e) => setPlace(e.target.value)}
                  />
                </label>
                <StandFields stand={stand} onStand={setStand} />
                <NeighbourFields entries={near} fault={entered.fault} onEntries={setNear} />
              </div>
            </PlanStep>
            <PlanStep n={3} title={order.length > 0 ? words.orderIs(order.join("-")) : words.orderNone}>
              <p>{words.orderOnStand(type.defaultOrder.join("-"))}</p>
              <div className="plan-advised">
                <OrderKeys type={type} onOrder={setOrder} />
                <WorkedFigures title={text.worked.advice} rows={worked} />
              </div>
              {otherwise && (
                <label className="field">
                  <span>{words.why(advised.order.join("-"), advised.extra)}</span>
                  <input
                    name="why"
                    value={why}
                    maxLength={280}
                    placeholder={words.whyLike}
                    onChange={(e) => setWhy(e.target.value)}
                  />
                </label>
              )}
            </PlanStep>
            <div className="plan-stand">
              <StandPlanned
                stand={{ type, engines: order, headingDeg: heading, neighbours: entered.near }}
                engines={orderMarks(type, order, planned)}
                onEngine={(n) => setOrder(touched(order, n))}
              />
            </div>
            <PlanStep n={4} title={words.power} beside>
              <PowerKeys
                label={words.powerTitle}
                power={power}
                words={{ groundPower: words.cart, batteries: words.batteries }}
                onPower={setPower}
              />
            </PlanStep>
            <PlanStep n={5} title={words.people}>
              <CrewFields people={people} crew={crew} onCrew={setCrew} />
            </PlanStep>
          </>
        )}
        {!type && <p className="plan-stand plan-stand-empty">{words.standHere}</p>}
      </div>
      <Trouble of={trouble} />
      <footer className="plan-foot">
        {needed.length > 0 ? (
          <p role="status">{words.needed(needed.join(", "))}</p>
        ) : (
          <button type="button" className="answer" data-tone="yes" disabled={busy} onClick={plan}>
            {busy ? words.busy : words.plan}
          </button>
        )}
        <Caution short />
      </footer>
    </main>
  );
}

/** Returns the figure as rows. A plan has no readings yet, so no input has an age. */
function given(figure: Figure | null, units: UnitChoice, words: Words) {
  return figure ? [workedRow(figure, 0, units, words)] : [];
}
