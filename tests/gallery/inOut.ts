import { demo } from "../../seed/demo-data.ts";
import { simulatedSamples } from "../../seed/simulatedSamples.ts";
import type { Crew } from "../browser/crew.ts";
import type { TestServer } from "../browser/server.ts";
import { speak } from "../browser/speak.ts";
import type { Camera } from "./camera.ts";

const AIRCRAFT = "QX-KIV";
const PLACE = "Stand 4, north apron";
const PART = ".instruments";

/** Photographs what instruments and the field's station read, on the panels, in both languages and once they are silent. */
export async function photographInstruments(
  camera: Camera,
  server: TestServer,
  url: string,
  { cockpit, guard, supervisor }: Crew,
): Promise<void> {
  const send = await logger(url, await supervisor.token());
  await send(server.now());
  for (const [who, { page }] of [
    ["Cockpit", cockpit],
    ["Fire guard", guard],
    ["Supervisor", supervisor],
  ] as const) {
    await page.locator(PART).waitFor();
    await camera.take("Read by instruments", who, page, false, PART);
  }
  await speak(cockpit.page, "es");
  await camera.take("Leído por instrumentos", "Cockpit", cockpit.page, false, PART);
  await speak(cockpit.page, "en");
}

/** Photographs the channels of an aircraft, and the webhooks of the house. */
export async function photographChannels(camera: Camera, url: string, { supervisor }: Crew): Promise<void> {
  const { page } = supervisor;
  await page.goto(`${url}/aircraft/${AIRCRAFT}`);
  await supervisor.press("Map the channels");
  await camera.take("Channels of the instruments", "Supervisor", page, false, ".channel-fields");
  await page.goto(`${url}/house`);
  await page.getByRole("region", { name: "Webhooks" }).waitFor();
  await camera.take("The house, webhooks", "Supervisor", page, false, "section[aria-label=Webhooks]");
}

/** Makes an account, and returns a function that sends one moment of each channel and the field's report. */
async function logger(url: string, office: string): Promise<(now: number) => Promise<void>> {
  const post = async (path: string, token: string, body: string, type = "application/json") => {
    const headers = { authorization: `Bearer ${token}`, "content-type": type };
    const reply = await fetch(`${url}/api/${path}`, { method: "POST", headers, body });
    if (!reply.ok) throw new Error(await reply.text());
    return (await reply.json()) as { token: string };
  };
  const scopes = [
    { is: "pushReadings", aircraft: AIRCRAFT },
    { is: "pushWeather", place: PLACE },
  ];
  const made = { name: "Logger", until: "2099-12-31", scopes };
  const { token } = await post("service-accounts", office, JSON.stringify(made));
  const type = demo.types.find((t) => t.id === demo.aircraft.find((a) => a.id === AIRCRAFT)?.typeId);
  return async (now) => {
    const samples = type ? simulatedSamples(type, now) : [];
    const lines = samples.map((s) => JSON.stringify(s)).join("\n");
    await post(`feeds/${AIRCRAFT}`, token, lines, "application/x-ndjson");
    const at = new Date(now).toISOString();
    const stamp = `${at.slice(8, 10)}${at.slice(11, 13)}${at.slice(14, 16)}Z`;
    const metar = `METAR XXNF ${stamp} 27018G29KT 9999 FEW030 18/11 Q1016`;
    await post("weather", token, JSON.stringify({ place: PLACE, metar }));
  };
}
