import { expect, type Page } from '@playwright/test';

/** The main job by keyboard alone: log a play, ask for it, see it in the table, and play its film. */
export async function logAskAndPlay(page: Page): Promise<void> {
  await page.keyboard.press('Control+2');
  const heading = page.getByText('Play 27 of 52');
  await expect(heading).toBeVisible();
  await expect(page.locator('video').first()).toBeVisible();

  // one frame forward twice, so that the tag carries a film time of its own
  await page.keyboard.press('Escape');
  await page.keyboard.press('d');
  await page.keyboard.press('d');
  await expect(page.getByText('frame 2', { exact: true })).toBeVisible();

  await page.keyboard.press('/');
  await page.keyboard.type('us q3 10:00 -35 m kickoff touchback k65');
  await page.keyboard.press('Enter');
  await expect(page.getByText('Play 28 of 52')).toBeVisible();
  await expect(page.getByTestId('saved-state')).toHaveAttribute('data-state', 'saved');

  // the kick was a touchback: first and ten on the other team's 25, said by the rules and not by a person
  await expect(page.getByText('predicted', { exact: true }).first()).toBeVisible();
  await page.keyboard.type('11 trips c:power over c4 base run ru g2 b21');
  await page.keyboard.press('Enter');
  await expect(page.getByText('Play 29 of 52')).toBeVisible();

  await page.keyboard.press('Escape');
  await page.keyboard.press('Control+3');
  await expect(page.getByText('The same as text')).toBeVisible();
  await page.keyboard.press('/');
  await page.keyboard.type("playNumber = 28 AND coverage = 'Cover 4'");
  await page.keyboard.press('Control+Enter');
  await expect(page.getByText('1 play', { exact: true }).first()).toBeVisible();
  await page.keyboard.press('Enter');
  const film = page.locator('video').first();
  await expect(film).toBeVisible();
  await expect
    .poll(() => film.evaluate((video: HTMLVideoElement) => video.currentTime), { timeout: 15_000 })
    .toBeGreaterThan(0.3);
}
