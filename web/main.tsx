import "@fontsource/b612/latin-400.css";
import "@fontsource/b612/latin-700.css";
import "@fontsource/b612-mono/latin-400.css";
import "@fontsource/b612-mono/latin-700.css";
import "./styles/tokens.css";
import "./styles/base.css";
import "./styles/title.css";
import "./styles/panel.css";
import "./styles/ask.css";
import "./styles/figures.css";
import "./styles/stops.css";
import "./styles/entry.css";
import "./styles/plan.css";
import "./styles/lists.css";
import "./styles/strips.css";
import "./styles/devices.css";
import "./styles/exchange.css";
import "./styles/pages.css";
import "./styles/notices.css";
import "./styles/print.css";
import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { begin } from "./net/app.ts";
import { keptSignIn } from "./net/keep.ts";
import { App } from "./pages/App.tsx";
import { keepPanels } from "./pwa/update.ts";
import { chosenBy, usual } from "./words/kept.ts";
import { speak } from "./words/words.ts";

begin();
if (import.meta.env.PROD) void keepPanels();
const root = document.getElementById("root");
if (!root) throw new Error("index.html has no #root");
const draw = () =>
  createRoot(root).render(
    <StrictMode>
      <App />
    </StrictMode>,
  );
const person = keptSignIn()?.person.id;
// Start in English rather than show nothing if a language cannot be fetched.
speak((person && chosenBy(person)) || usual()).then(draw, draw);
