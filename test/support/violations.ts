import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';

export interface Violation {
  readonly rule: string;
  readonly isSerious: boolean;
  /** The first element that breaks it. */
  readonly html: string;
}

/**
 * What in a page keeps people from using it, by axe-core.
 *
 * @param within - selector of the part that is looked at
 */
export async function violationsOf(page: Page, within = 'html'): Promise<Violation[]> {
  // What is in order is counted but not described, which takes most of the time on a long page.
  const { violations } = await new AxeBuilder({ page })
    .include(within)
    .options({ resultTypes: ['violations'] })
    .analyze();
  return violations.map(({ id, impact, nodes }) => ({
    rule: id,
    isSerious: impact === 'serious' || impact === 'critical',
    html: nodes[0]?.html ?? '',
  }));
}

export async function seriousViolationsOf(page: Page, within?: string): Promise<Violation[]> {
  return (await violationsOf(page, within)).filter(({ isSerious }) => isSerious);
}
