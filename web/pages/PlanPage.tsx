import { useEffect, useState } from "react";
import type { Figure } from "../../shared/figures/figure.ts";
import { plannedOrderFigure } from "../../shared/figures/order.ts";
import type { Lapse } from "../../shared/house/lapses.ts";
import type { UnitChoice } from "../../shared/models/unitChoice.ts";
import { questionFor } from "../../shared/plan/orderAdvice.ts";
import { adviceFor } from "../../shared/plan/orderFor.ts";
import { usualOrder } from "../../shared/plan/usualOrder.ts";
import { PURPOSES, type Purpose } from "../../shared/protocol/stages.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { type RegisteredAircraft, aircraft as register } from "../net/aircraft.ts";
import type { PersonRow, StandingRow } from "../net/api.ts";
import { api } from "../net/app.ts";
import { currencies } from "../net/currencies.ts";
import { Caution } from "../posts/shared/Caution.tsx";
import { StandPlanned } from "../posts/shared/Stand.tsx";
import { workedRow } from "../posts/shared/workedRow.ts";
import "../styles/planning.css";
import "../styles/worked.css";
import { Choice } from "../ui/Choice.tsx";
import { Trouble } from "../ui/Trouble.tsx";
import { useUnits } from "../ui/units.ts";
import { WorkedFigures } from "../ui/WorkedFigures.tsx";
import type { Words } from "../words/catalogue.ts";
import { usePlannedWords } from "../words/planned.ts";
import { useWords } from "../words/words.ts";
import { AircraftChoice } from "./AircraftChoice.tsx";
import { CrewFields, NOBODY } from "./CrewFields.tsx";
import { EquipmentChoice } from "./EquipmentChoice.tsx";
import { type NearEntry, NeighbourFields, nearOf } from "./NeighbourFields.tsx";
import { OrderKeys, orderMarks, orderTitle, touched } from "./OrderPlan.tsx";
import { PlanStep } from "./PlanStep.tsx";
import { PowerKeys } from "./PowerKeys.tsx";
import { go } from "./route.ts";
import { NO_STAND, StandFields, standOf } from "./StandFields.tsx";

/**
 * Plans a start or a return: aircraft, place, engines' order touched on the plan, power and people.
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
  const [away, setAway] = useState<ReadonlyMap<string, number[]>>(new Map());
  const [purpose, setPurpose] = useState<Purpose>("start");
  const [order, setOrder] = useState<number[]>([]);
  const [place, setPlace] = useState("");
  const [stand, setStand] = useState(NO_STAND);
  const [near, setNear] = useState<NearEntry[]>([]);
  const [why, setWhy] = useState("");
  const [power, setPower] = useState<"groundPower" | "batteries">("groundPower");
  const [crew, setCrew] = useState(NOBODY);
  const [lapses, setLapses] = useState<Record<string, Lapse[]>>({});
  const [equipment, setEquipment] = useState<string[]>([]);
  const [trouble, setTrouble] = useState<Error | null>(null);
  const [commandId] = useState(() => crypto.randomUUID());
  const [busy, setBusy] = useState(false);
  const failed = (error: Error) => {
    setTrouble(error);
    setBusy(false);
  };
  const [asked, setAsked] = useState(0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: fetch once, and again when the person says so
  useEffect(() => {
    register.list().then((rows) => {
      setAircraft(rows);
      const row = rows.find((a) => a.id === wanted && a.bar === null);
      if (row) choose(row);
    }, failed);
    api.people().then(setPeople, failed);
    // Without this answer nobody knows what turns: a return then begins with every engine, as from elsewhere.
    api.standing().then((rows) => setAway(new Map(rows.map((r) => [r.aircraft, turningOf(r)]))), failed);
    // Without an answer the server still refuses a person whose lapse bars the post.
    currencies.lapses().then(
      (all) => setLapses(Object.fromEntries(all.map((p) => [p.person, p.lapses]))),
      () => undefined,
    );
  }, [asked]);
  const choose = (row: RegisteredAircraft) => {
    setChosen(row);
    setType(null);
    setPurpose("start");
    // The home stand is offered; what somebody typed stays.
    if (place === "" || place === chosen?.stand) setPlace(row.stand ?? "");
    api.type(row.typeId, row.typeVersion).then((t) => {
      setType(t);
      setOrder(t.defaultOrder);
    }, failed);
  };
  const turning = chosen ? (away.get(chosen.id) ?? []) : [];
  const forPurpose = (next: Purpose) => {
    if (!type) return;
    setPurpose(next);
    const named = turning.length > 0 && next === "return" ? turning : type.engines.map((e) => e.n);
    setOrder(usualOrder(type, next).filter((n) => named.includes(n)));
  };
  const plan = () => {
    if (!chosen) return;
    setBusy(true);
    api
      .planSession({
        ...{ commandId, aircraft: chosen.id, typeVersion: chosen.typeVersion, place: place.trim() },
        ...{ purpose, order, powerSource: power, crew },
        ...standOf(stand),
        ...(equipment.length > 0 ? { equipment } : {}),
        ...(entered.near.length > 0 ? { neighbours: entered.near } : {}),
        ...(otherwise && why.trim() !== "" ? { orderReason: why.trim() } : {}),
      })
      .then(({ id }) => go(`/session/${id}`), failed);
  };
  const heading = standOf(stand).headingDeg;
  const entered = nearOf(near, heading, planned);
  const advised =
    type && order.length > 0 ? adviceFor(purpose, questionFor(type, order, heading), order) : null;
  const worked =
    type && order.length > 0 && purpose === "start"
      ? given(plannedOrderFigure(questionFor(type, order, heading), order), units, all)
      : [];
  const otherwise = advised != null && advised.order.join() !== order.join();
  const needed = [
    type === null ? words.needs.aircraft : null,
    type !== null && place.trim() === "" ? words.needs.place : null,
    type !== null && order.length === 0 ? words.needs.engine : null,
    entered.fault === null ? null : words.needs.near,
    otherwise && why.trim() === "" ? words.needs.why : null,
  ].filter((n) => n !== null);
  const lacks = trouble !== null && (aircraft === null || (chosen !== null && type === null));
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
          {lacks && (
            <>
              <Trouble of={trouble} />
              <button
                type="button"
                className="answer"
                data-tone="yes"
                onClick={() => {
                  setTrouble(null);
                  if (chosen) choose(chosen);
                  setAsked(asked + 1);
                }}
              >
                {words.again}
              </button>
            </>
          )}
        </PlanStep>
        {type && chosen && (
          <>
            <PlanStep n={2} title={words.where}>
              <Choice
                label={words.purpose}
                chosen={purpose}
                options={PURPOSES.map((is) => ({ is, words: words.purposes[is] }))}
                className="option-keys"
                classNameOfKeys="answer"
                onChoose={forPurpose}
              />
              {purpose === "return" && turning.length === 0 && <p role="status">{words.fromElsewhere}</p>}
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
            <PlanStep n={3} title={orderTitle(order, purpose, planned)}>
              <p>{words.orderOnStand(usualOrder(type, purpose).join("-"))}</p>
              <div className="plan-advised">
                <OrderKeys usual={usualOrder(type, purpose)} onOrder={setOrder} />
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
                engines={orderMarks(type, order, purpose, planned)}
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
              <EquipmentChoice chosen={equipment} onChosen={setEquipment} />
            </PlanStep>
            <PlanStep n={5} title={words.people}>
              <CrewFields people={people} crew={crew} onCrew={setCrew} lapses={lapses} />
            </PlanStep>
          </>
        )}
        {!type && <p className="plan-stand plan-stand-empty">{words.standHere}</p>}
      </div>
      {!lacks && <Trouble of={trouble} />}
      <footer className="plan-foot">
        {needed.length > 0 ? (
          <p role="status">{words.needed(needed.join(", "))}</p>
        ) : (
          <button type="button" className="answer" data-tone="yes" disabled={busy} onClick={plan}>
            {busy ? words.busy : purpose === "return" ? words.planReturn : words.plan}
          </button>
        )}
        <Caution short />
      </footer>
    </main>
  );
}

/** Returns the numbers of the engines that turn at an aircraft. */
function turningOf({ items }: StandingRow): number[] {
  return items.flatMap(({ item }) => (item.is === "turning" ? [item.engine] : []));
}

/** Returns the figure as rows. A plan has no readings yet, so no input has an age. */
function given(figure: Figure | null, units: UnitChoice, words: Words) {
  return figure ? [workedRow(figure, 0, units, words)] : [];
}
