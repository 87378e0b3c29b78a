import type { ReportPlay } from '#domain/reports/round-report-shape.js';
import { html, joined, type Html } from '../html.js';
import { filmPlace, gameNumbers, type ReportFilm } from '../report-film.js';

/** Whose games the plays are of, in the order in which the page numbers them. */
export interface EvidenceSource {
  readonly sample: { readonly charts: readonly { readonly chartId: string; readonly gameId: string }[] };
}

/** What a number of the page rests on. */
interface Cited {
  readonly id: string;
  /** What the number is about. */
  readonly title: string;
  /** "9 of 12" */
  readonly counts: string;
  readonly plays: readonly ReportPlay[];
  /** Of a success rate: how many of `plays`, the first ones, succeeded. */
  readonly successes?: number;
}

/**
 * The plays behind the numbers of a page. Sections cite them while they are written; what was cited is listed once, at
 * the end, by the number that stands beside each figure, so that paper leads there as well as a link.
 */
export class Evidence {
  private readonly cited = new Map<string, Cited & { readonly number: number }>();
  private readonly games: ReadonlyMap<string, number>;
  private readonly gameOfChart: ReadonlyMap<string, string>;

  constructor(
    { sample }: EvidenceSource,
    private readonly film: ReportFilm,
  ) {
    this.games = gameNumbers(sample.charts);
    this.gameOfChart = new Map(sample.charts.map(({ chartId, gameId }) => [chartId, gameId]));
  }

  /** The counts as a link to their plays. */
  cite(cited: Cited): Html {
    const { number } = this.cited.get(cited.id) ?? this.added(cited);
    return html`<a class="counts" href="#plays-${number}"
      >${cited.counts}<span class="reference"> [${number}]</span></a
    >`;
  }

  private added(cited: Cited): { readonly number: number } {
    const entry = { ...cited, number: this.cited.size + 1 };
    this.cited.set(cited.id, entry);
    return entry;
  }

  /** Everything cited so far. */
  list(): Html {
    const entries = [...this.cited.values()].map(
      ({ number, title, counts, plays, successes }) =>
        html`<li id="plays-${number}">
          <span class="number">${number}.</span> <b>${title}</b>: ${counts}.
          ${
            successes === undefined
              ? this.byGame(plays)
              : [...this.part('Succeeded', plays.slice(0, successes)), ...this.part('Did not', plays.slice(successes))]
          }
        </li>`,
    );
    return html`<ol class="evidence">
      ${entries}
    </ol>`;
  }

  private part(name: string, plays: readonly ReportPlay[]): Html[] {
    return plays.length === 0 ? [] : [html`<i>${name}:</i> ${this.byGame(plays)} `];
  }

  private byGame(plays: readonly ReportPlay[]): Html {
    const games = new Map<number, ReportPlay[]>();
    for (const play of plays) {
      const number = this.games.get(this.gameOfChart.get(play.chartId) ?? '') ?? 0;
      games.set(number, [...(games.get(number) ?? []), play]);
    }
    const lists = [...games].map(
      ([number, ofGame]) =>
        html`<span class="game"
          ><a href="#game-${number}">Game ${number}</a>:
          ${joined(
            ofGame.map((play) => this.play(play)),
            ', ',
          )}</span
        >`,
    );
    return html`${joined(lists, '; ')}.`;
  }

  private play(play: ReportPlay): Html {
    const place = filmPlace(this.film, play);
    if (place === null) return html`${play.playNumber}`;
    const { at, address } = place;
    if (address === null) return html`${play.playNumber} at ${at}`;
    return html`${play.playNumber} at <a href="${address}" rel="noreferrer">${at}</a>`;
  }
}
