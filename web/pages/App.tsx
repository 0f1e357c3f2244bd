import { lazy, Suspense } from "react";
import { useConnected, useLinkView } from "../net/app.ts";
import type { SignedIn } from "../net/keep.ts";
import type { Link } from "../net/link.ts";
import { Fault } from "./Fault.tsx";
import { Ramp } from "./Ramp.tsx";
import { useRoute } from "./route.ts";
import { SessionPage } from "./SessionPage.tsx";
import { SignIn } from "./SignIn.tsx";

// Not needed beside an aircraft: fetched when somebody opens them, so that the panels are there sooner.
const PlanPage = lazy(() => import("./PlanPage.tsx").then((m) => ({ default: m.PlanPage })));
const RecordPage = lazy(() => import("./RecordPage.tsx").then((m) => ({ default: m.RecordPage })));
const StudyPage = lazy(() => import("./StudyPage.tsx").then((m) => ({ default: m.StudyPage })));
const TypesPages = lazy(() => import("./types/TypesPages.tsx").then((m) => ({ default: m.TypesPages })));

/** Signed out: the sign-in. Signed in: the page the address names. */
export function App() {
  const connected = useConnected();
  const route = useRoute();
  if (!connected) return <SignIn join={route.is === "ramp" ? route.join : null} />;
  return (
    <Fault key={location.pathname}>
      <Suspense fallback={<p className="page waiting">Fetching…</p>}>
        <SignedInApp signedIn={connected.signedIn} link={connected.link} />
      </Suspense>
    </Fault>
  );
}

function SignedInApp({ signedIn, link }: { signedIn: SignedIn; link: Link }) {
  const route = useRoute();
  const { phase } = useLinkView(link);
  if (phase === "signedOut") return <SignIn join={route.is === "ramp" ? route.join : null} />;
  switch (route.is) {
    case "plan":
      return <PlanPage />;
    case "record":
      return <RecordPage id={route.id} />;
    case "types":
      return <TypesPages page={route.page} me={signedIn.person} />;
    case "study":
      return <StudyPage page={route.page} more={route.more} />;
    case "session":
      return <SessionPage key={route.id} id={route.id} me={signedIn.person} link={link} />;
    case "ramp":
      return <Ramp me={signedIn.person} link={link} join={route.join} />;
  }
}
