import { valueWords } from '#domain/reports/claim-words.js';
import type { ResultClaim, SideReport, SituationReport, StandsOut } from '#domain/reports/round-report-shape.js';
import { html, type Html } from '../html.js';
import { isOrdinary, LEADS_A_SIDE, NO_SNAP, seenSituations } from '../report-sections.js';
import { resultFigure, shareFigure } from './claims.js';
import type { Evidence } from './evidence.js';
import { gridFigure } from './figures.js';
import type { PagePart } from './page-part.js';

export function sideName({ side }: SideReport): string {
  return side === 'offense' ? 'Offense' : 'Defense';
}

/** What stands out of one side: what is established, then the leads. */
export function standsOutList(side: SideReport, evidence: Evidence): Html {
  const established = side.standsOut.filter((one) => one.established);
  const leads = side.standsOut.filter((one) => !one.established).slice(0, LEADS_A_SIDE);
  const items = (list: readonly StandsOut[]): Html =>
    html`<ul>
      ${list.map((one) => standsOutItem(one, evidence))}
    </ul>`;
  return html`<h3>${sideName(side)}</h3>
    ${established.length === 0 ? html`<p>Nothing stands out on this sample.</p>` : items(established)}${
      leads.length === 0
        ? null
        : html`<p>Leads that this sample does not prove:</p>
            ${items(leads)}`
    }`;
}

function standsOutItem({ claim, direction }: StandsOut, evidence: Evidence): Html {
  const { situation, label, dimensionLabel } = claim;
  return html`<li>
    ${situation}, ${dimensionLabel}: <b>${label}</b> ${direction} often, ${shareFigure(claim, evidence)}
  </li>`;
}

/** All that is said of one side beside what stands out. */
export function sidePart(side: SideReport, evidence: Evidence): PagePart {
  const title = sideName(side);
  return { id: side.side, title, inContents: title, markup: sideMarkup(side, evidence) };
}

function sideMarkup(side: SideReport, evidence: Evidence): Html {
  const name = sideName(side);
  if (side.snaps === 0) return html`<p>${NO_SNAP}</p>`;
  const against = side.side === 'defense' ? html`<p>Success is that of the offenses against it.</p>` : null;
  const situations = seenSituations(side);
  return html`${
      side.callGrid === undefined
        ? null
        : html`<h3>${name}: what is called when</h3>
            ${gridFigure(side, side.callGrid, evidence)}`
    }
    ${
      situations.length === 0
        ? null
        : html`<h3>${name}: by situation</h3>
            ${situationTable(situations, evidence)}`
    }
    <h3>${name}: most used, all snaps</h3>
    <ul class="columns">
      ${side.mostUsed.map(
        (claim) => html`<li>${claim.dimensionLabel}: <b>${claim.label}</b>, ${shareFigure(claim, evidence)}</li>`,
      )}
    </ul>
    ${
      isOrdinary(side)
        ? null
        : html`<h3>${name}: strong and weak</h3>
            ${against}${results('Strong', side.strong, evidence)}${results('Weak', side.weak, evidence)}`
    }`;
}

function situationTable(situations: readonly SituationReport[], evidence: Evidence): Html {
  const rows = situations.map(
    ({ label, snaps, claims, result }) =>
      html`<tr>
        <th scope="row">${label}</th>
        <td>${snaps}</td>
        <td>
          <ul class="figures">
            ${claims.map(
              (claim) =>
                html`<li>
                  <span class="what">${claim.dimensionLabel}</span>
                  <b>${claim.label}</b> ${shareFigure(claim, evidence)}
                </li>`,
            )}${
              result === null
                ? null
                : html`<li><span class="what">success</span> ${resultFigure(result, evidence)}</li>`
            }
          </ul>
        </td>
      </tr>`,
  );
  return html`<table class="situations">
    <thead>
      <tr>
        <th scope="col">Situation</th>
        <th scope="col">Snaps</th>
        <th scope="col">Most used</th>
      </tr>
    </thead>
    <tbody>
      ${rows}
    </tbody>
  </table>`;
}

function results(title: string, claims: readonly ResultClaim[], evidence: Evidence): Html {
  if (claims.length === 0) return html`<p>${title}: nothing beyond the ordinary on this sample.</p>`;
  return html`<p>${title}:</p>
    <ul>
      ${claims.map((claim) => html`<li><b>${valueWords(claim)}</b>: ${resultFigure(claim, evidence)}</li>`)}
    </ul>`;
}
