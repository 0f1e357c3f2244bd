import { useState } from "react";
import type { Post } from "../../../shared/protocol/posts.ts";
import { signIn } from "../../net/app.ts";
import { type HouseNow, house } from "../../net/house.ts";
import { Keypad } from "../../ui/Keypad.tsx";
import { Trouble } from "../../ui/Trouble.tsx";
import { useHouseWords } from "../../words/house.ts";
import { PostKeys } from "../people/PostKeys.tsx";
import { go } from "../route.ts";

const STEPS = ["who", "pin", "again"] as const;
type Step = (typeof STEPS)[number];

/** Enters the house's name and its first supervisor, then signs them in. */
export function FirstSupervisor({ now }: { now: HouseNow }) {
  const words = useHouseWords();
  const [named, setNamed] = useState(now.name ?? "");
  const [name, setName] = useState("");
  const [handle, setHandle] = useState("");
  const [posts, setPosts] = useState<Post[]>(["supervisor"]);
  const [step, setStep] = useState<Step>("who");
  const [pin, setPin] = useState("");
  const [again, setAgain] = useState("");
  const [trouble, setTrouble] = useState<Error | null>(null);
  const [busy, setBusy] = useState(false);
  const entries: readonly [string, string][] = [
    [named, words.house],
    [name, words.name],
    [handle, words.handle],
  ];
  const lacking = entries.filter(([text]) => text.trim() === "").map(([, label]) => label);
  const failed = (error: Error, back: Step = "who") => {
    setTrouble(error);
    setBusy(false);
    setPin("");
    setAgain("");
    setStep(back);
  };
  const next = () => {
    if (step === "who") return setStep("pin");
    if (step === "pin") return setStep("again");
    if (pin !== again) return failed(new Error(words.notAlike), "pin");
    setBusy(true);
    setTrouble(null);
    const person = { handle: handle.trim(), name: name.trim(), mayHold: posts, pin };
    house
      .begin({ house: named.trim(), person })
      .then((made) => signIn(made.handle, pin))
      .then(
        () => go("/"),
        (error: Error) => failed(error),
      );
  };
  const ready =
    step === "who" ? lacking.length === 0 : (step === "pin" ? pin : again).length >= now.pinLength;
  return (
    <form
      className="register-form first-form"
      onSubmit={(e) => {
        e.preventDefault();
        if (ready && !busy) next();
      }}
    >
      <h2>{words.youTitle}</h2>
      <Trouble of={trouble} />
      {step === "who" && (
        <>
          <label className="field">
            <span>{words.house}</span>
            <input
              name="house"
              value={named}
              maxLength={60}
              placeholder={words.houseLike}
              autoComplete="organization"
              onChange={(e) => setNamed(e.target.value)}
            />
          </label>
          <label className="field">
            <span>{words.name}</span>
            <input
              name="name"
              value={name}
              maxLength={80}
              autoComplete="name"
              onChange={(e) => setName(e.target.value)}
            />
          </label>
          <label className="field">
            <span>{words.handle}</span>
            <input
              name="handle"
              value={handle}
              maxLength={64}
              autoCapitalize="none"
              autoComplete="username"
              spellCheck={false}
              onChange={(e) => setHandle(e.target.value.toLowerCase())}
            />
            <span className="field-note">{words.handleRule}</span>
          </label>
          <PostKeys label={words.posts} posts={posts} fixed="supervisor" onPosts={setPosts} />
          {lacking.length > 0 && <p role="status">{words.stillNeeded(lacking.join(", "))}</p>}
        </>
      )}
      {step === "pin" && (
        <div className="pin-entry">
          <p>{words.pinRule(now.pinLength)}</p>
          <Keypad label={words.pin} value={pin} onChange={setPin} />
        </div>
      )}
      {step === "again" && (
        <div className="pin-entry">
          <Keypad label={words.pinAgain} value={again} onChange={setAgain} />
        </div>
      )}
      <button type="submit" className="answer" data-tone="yes" disabled={!ready || busy}>
        {step !== "again" && words.goOn}
        {step === "again" && (busy ? words.entering : words.enter)}
      </button>
    </form>
  );
}
