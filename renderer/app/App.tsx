import { MantineProvider } from '@mantine/core';
import { Notifications } from '@mantine/notifications';
import { QueryClientProvider } from '@tanstack/react-query';
import { Router } from 'wouter';
import { useHashLocation } from 'wouter/use-hash-location';
import { cache } from '../service/cache.ts';
import { theme } from '../theme/theme.ts';
import { Shell } from './Shell.tsx';

/** The place within the window stands behind a hash, so that the service needs to know one page only. */
export function App() {
  return (
    <MantineProvider theme={theme} forceColorScheme="dark">
      <QueryClientProvider client={cache}>
        <Notifications position="bottom-right" limit={4} />
        <Router hook={useHashLocation}>
          <Shell />
        </Router>
      </QueryClientProvider>
    </MantineProvider>
  );
}
