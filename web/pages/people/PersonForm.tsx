import { useState } from "react";
import type { Post } from "../../../shared/protocol/posts.ts";
import type { Anybody, PersonEntry } from "../../net/people.ts";
import { FormKeys } from "../../ui/FormKeys.tsx";
import { usePersonWords } from "../../words/person.ts";
import { PostKeys } from "./PostKeys.tsx";

interface Props {
  /** The person to change; null for a new one. */
  person: Anybody | null;
  /** True for the person signed in: they change their own name only. */
  own: boolean;
  /** Fewest digits of a new person's first PIN. */
  least: number;
  onSave(entry: PersonEntry, fresh: { handle: string; pin: string }): void;
  onLeave(): void;
}

/** Entry of a person: name, posts, and for a new one the handle and a first PIN. */
export function PersonForm({ person, own, least, onSave, onLeave }: Props) {
  const words = usePersonWords();
  const [name, setName] = useState(person?.name ?? "");
  const [handle, setHandle] = useState("");
  const [pin, setPin] = useState("");
  const [posts, setPosts] = useState<Post[]>(person?.mayHold ?? []);
  const ready = name.trim() !== "" && (person !== null || (handle.trim() !== "" && pin.length >= least));
  const title = person ? words.changeOne(person.name) : words.add;
  return (
    <form
      className="register-form person-form"
      aria-label={title}
      onSubmit={(e) => {
        e.preventDefault();
        onSave({ name: name.trim(), mayHold: posts }, { handle: handle.trim(), pin });
      }}
    >
      <h3>{title}</h3>
      <label className="field">
        <span>{words.name}</span>
        <input
          name="name"
          value={name}
          maxLength={80}
          autoComplete="off"
          onChange={(e) => setName(e.target.value)}
        />
      </label>
      {person === null && (
        <>
          <label className="field">
            <span>{words.handle}</span>
            <input
              name="handle"
              value={handle}
              maxLength={64}
              autoCapitalize="none"
              autoComplete="off"
              spellCheck={false}
              onChange={(e) => setHandle(e.target.value.toLowerCase())}
            />
          </label>
          <label className="field">
            <span>{words.firstPin}</span>
            <input
              name="pin"
              value={pin}
              maxLength={64}
              inputMode="numeric"
              autoComplete="off"
              onChange={(e) => setPin(e.target.value)}
            />
            <span className="field-note">{words.firstPinWhat(least)}</span>
          </label>
        </>
      )}
      {!own && <PostKeys label={words.posts} posts={posts} onPosts={setPosts} />}
      <FormKeys send={person ? words.save : words.add} leave={words.leave} ready={ready} onLeave={onLeave} />
    </form>
  );
}
