import { expect, type Page } from '@playwright/test';

/** The main job by keyboard alone: log a play, ask for it, see it in the table, and play its film. */
export async function logAskAndPlay(page: Page): Promise<void> {
  await page.keyboard.press('Control+2');
  const heading = page.getByText('Play 35 of 64');
  await expect(heading).toBeVisible();
  await expect(page.locator('video').first()).toBeVisible();

  // one frame forward twice, so that the tag carries a film time of its own
  await page.keyboard.press('Escape');
  await page.keyboard.press('d');
  await page.keyboard.press('d');
  await expect(page.getByText('frame 2', { exact: true })).toBeVisible();

  await page.keyboard.press('/');
  await page.keyboard.type('us q3 6:00 -35 m kickoff returned k62 ret16');
  await page.keyboard.press('Enter');
  await expect(page.getByText('Play 36 of 64')).toBeVisible();
  await expect(page.getByTestId('saved-state')).toHaveAttribute('data-state', 'saved');

  // the return ended on the other team's 19: first and ten there, said by the rules and not by a person
  await expect(page.getByText('predicted', { exact: true }).first()).toBeVisible();
  await page.keyboard.type('12 ace c:inside-zone over sky base run ru g2 b32');
  await page.keyboard.press('Enter');
  await expect(page.getByText('Play 37 of 64')).toBeVisible();

  await page.keyboard.press('Escape');
  await page.keyboard.press('Control+3');
  await expect(page.getByText('The same as text')).toBeVisible();
  await page.keyboard.press('/');
  await page.keyboard.type("playNumber = 36 AND coverage = 'Cover 3 sky'");
  await page.keyboard.press('Control+Enter');
  await expect(page.getByText('1 play', { exact: true }).first()).toBeVisible();
  await page.keyboard.press('Enter');
  const film = page.locator('video').first();
  await expect(film).toBeVisible();
  await expect
    .poll(() => film.evaluate((video: HTMLVideoElement) => video.currentTime), { timeout: 15_000 })
    .toBeGreaterThan(0.3);
}
