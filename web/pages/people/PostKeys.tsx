import { POSTS, type Post } from "../../../shared/protocol/posts.ts";
import { useWords } from "../../words/words.ts";

interface Props {
  label: string;
  posts: readonly Post[];
  /** A post that stays chosen and is not shown. */
  fixed?: Post;
  onPosts(next: Post[]): void;
}

/** The posts a person is qualified to hold, as keys that are pressed in and out. */
export function PostKeys({ label, posts, fixed, onPosts }: Props) {
  const { say } = useWords();
  const toggle = (post: Post) =>
    onPosts(POSTS.filter((p) => (p === post ? !posts.includes(p) : posts.includes(p))));
  return (
    <fieldset className="post-keys">
      <legend>{label}</legend>
      <div className="option-keys">
        {POSTS.filter((post) => post !== fixed).map((post) => (
          <button
            key={post}
            type="button"
            className="answer"
            data-tone="plain"
            aria-pressed={posts.includes(post)}
            onClick={() => toggle(post)}
          >
            {say.post(post)}
          </button>
        ))}
      </div>
    </fieldset>
  );
}
