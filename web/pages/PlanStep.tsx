import type { ReactNode } from "react";

interface Props {
  n: number;
  title: string;
  /** True where title and content stand beside one another. */
  beside?: boolean;
  children: ReactNode;
}

/** One numbered step of planning. */
export function PlanStep({ n, title, beside = false, children }: Props) {
  return (
    <section className="plan-step" data-beside={beside || undefined} aria-label={title}>
      <h2>
        <span className="plan-step-number">{n}</span> <span>{title}</span>
      </h2>
      {children}
    </section>
  );
}
