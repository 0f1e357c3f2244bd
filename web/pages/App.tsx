import { Suspense, useEffect } from "react";
import { type ActiveSignIn, useActiveSignIn, useConnectionView, useUnitChoice } from "../net/app.ts";
import type { Connection } from "../net/connection.ts";
import type { SignedIn } from "../net/keep.ts";
import { OtherVersion } from "../pwa/Update.tsx";
import { fetchRest, later } from "../ui/later.tsx";
import { UnitsContext } from "../ui/units.ts";
import { useWords } from "../words/words.ts";
import { Fault } from "./Fault.tsx";
import { RehearsalEdge } from "./RehearsalEdge.tsx";
import { go, useRoute } from "./route.ts";
import { SessionPage } from "./SessionPage.tsx";

const UpdateOffer = later(() => import("../pwa/UpdateOffer.tsx").then((m) => m.UpdateOffer));
const AircraftPages = later(() => import("./aircraft/AircraftPages.tsx").then((m) => m.AircraftPages));
const BoardPage = later(() => import("./BoardPage.tsx").then((m) => m.BoardPage));
const DevicesPage = later(() => import("./devices/DevicesPage.tsx").then((m) => m.DevicesPage));
const DuesPage = later(() => import("./dues/DuesPage.tsx").then((m) => m.DuesPage));
const ElsewherePage = later(() => import("./ElsewherePage.tsx").then((m) => m.ElsewherePage));
const EnrolPage = later(() => import("./devices/EnrolPage.tsx").then((m) => m.EnrolPage));
const EquipmentPages = later(() => import("./equipment/EquipmentPages.tsx").then((m) => m.EquipmentPages));
const FirstPage = later(() => import("./first/FirstPage.tsx").then((m) => m.FirstPage));
const HistoryPages = later(() => import("./history/HistoryPages.tsx").then((m) => m.HistoryPages));
const HousePages = later(() => import("./house/HousePages.tsx").then((m) => m.HousePages));
const OfferCall = later(() => import("./OfferCall.tsx").then((m) => m.OfferCall));
const PeoplePage = later(() => import("./people/PeoplePage.tsx").then((m) => m.PeoplePage));
const PlanPage = later(() => import("./PlanPage.tsx").then((m) => m.PlanPage));
const Ramp = later(() => import("./Ramp.tsx").then((m) => m.Ramp));
const RecordPage = later(() => import("./RecordPage.tsx").then((m) => m.RecordPage));
const RehearsePage = later(() => import("./rehearsal/RehearsePage.tsx").then((m) => m.RehearsePage));
const SignIn = later(() => import("./SignIn.tsx").then((m) => m.SignIn));
const StudyPage = later(() => import("./StudyPage.tsx").then((m) => m.StudyPage));
const TypesPages = later(() => import("./types/TypesPages.tsx").then((m) => m.TypesPages));

/**
 * The sign-in page when nobody is signed in; otherwise the page named by the address, if this window is the one that
 * sends.
 */
export function App() {
  const active = useActiveSignIn();
  const { text } = useWords();
  const route = useRoute();
  const [units] = useUnitChoice();
  if (route.is === "enrol" || route.is === "first")
    return (
      <Suspense fallback={<p className="page waiting">{text.app.fetching}</p>}>
        {route.is === "enrol" ? <EnrolPage /> : <FirstPage />}
      </Suspense>
    );
  if (!active) return <SignedOut join={route.is === "ramp" ? route.join : null} />;
  return (
    <Fault key={location.pathname}>
      <Suspense fallback={<p className="page waiting">{text.app.fetching}</p>}>
        <UnitsContext value={units}>
          <SignedInApp active={active} />
        </UnitsContext>
      </Suspense>
    </Fault>
  );
}

function SignedOut({ join }: { join: string | null }) {
  return (
    <>
      <Suspense>
        <UpdateOffer />
      </Suspense>
      <Suspense>
        <SignIn join={join} />
      </Suspense>
    </>
  );
}

function SignedInApp({ active: { signedIn, connection, turn, where } }: { active: ActiveSignIn }) {
  const { text } = useWords();
  if (connection) return <ConnectedApp signedIn={signedIn} connection={connection} />;
  if (where === "elsewhere") return <ElsewherePage name={signedIn.person.name} onTake={turn?.takeOver} />;
  return <p className="page waiting">{text.app.opening}</p>;
}

function ConnectedApp({ signedIn, connection }: { signedIn: SignedIn; connection: Connection }) {
  const route = useRoute();
  const { phase, unsettled, ramp, recording } = useConnectionView(connection);
  const { text } = useWords();
  useEffect(() => {
    if (phase === "live") void fetchRest();
  }, [phase]);
  if (phase === "mismatch") return <OtherVersion />;
  if (phase === "signedOut") return <SignedOut join={route.is === "ramp" ? route.join : null} />;
  if (route.is === "board") return <BoardPage connection={connection} />;
  const call = (
    <Suspense>
      <OfferCall connection={connection} />
    </Suspense>
  );
  if (route.is === "session")
    return (
      <>
        <RehearsalEdge session={route.id} />
        <SessionPage key={route.id} id={route.id} me={signedIn.person} connection={connection} call={call} />
      </>
    );
  return (
    <>
      {call}
      <Suspense>
        <UpdateOffer />
      </Suspense>
      {!recording && (
        <p className="stale" role="alert">
          {text.connection.notRecordingAdvice}
        </p>
      )}
      {unsettled && <Unsettled session={unsettled} />}
      {route.is === "rehearse" && (
        <RehearsePage me={signedIn.person} wanted={route.aircraft} changed={ramp} />
      )}
      {route.is === "plan" && <PlanPage wanted={route.aircraft} />}
      {route.is === "aircraft" &&
        (route.page.is === "history" ? (
          <HistoryPages of={{ aircraft: route.page.id }} me={signedIn.person} changed={ramp} />
        ) : (
          <AircraftPages page={route.page} me={signedIn.person} changed={ramp} />
        ))}
      {route.is === "engine" && <HistoryPages of={route} me={signedIn.person} changed={ramp} />}
      {route.is === "equipment" && <EquipmentPages id={route.id} me={signedIn.person} changed={ramp} />}
      {route.is === "house" && <HousePages page={route.page} asked={route.asked} me={signedIn.person} />}
      {route.is === "dues" && <DuesPage me={signedIn.person} changed={ramp} />}
      {route.is === "devices" && <DevicesPage />}
      {route.is === "people" && <PeoplePage me={signedIn.person} changed={ramp} />}
      {route.is === "record" && <RehearsalEdge session={route.id} />}
      {route.is === "record" && <RecordPage id={route.id} />}
      {route.is === "types" && <TypesPages page={route.page} me={signedIn.person} changed={ramp} />}
      {route.is === "study" && <StudyPage page={route.page} more={route.more} />}
      {route.is === "ramp" && (
        <Ramp me={signedIn.person} connection={connection} join={route.join} play={route.play} />
      )}
    </>
  );
}

/** A notice that an unsent message waits in another session, which must be opened to decide about it. */
function Unsettled({ session }: { session: string }) {
  const { app } = useWords().text;
  return (
    <section className="notice-row" data-is="plain" aria-label={app.notRecorded}>
      <strong>{app.unsettled}</strong>
      <span>{app.unsettledWhere}</span>
      <button type="button" className="small-key" onClick={() => go(`/session/${session}`)}>
        {app.openSession}
      </button>
    </section>
  );
}
