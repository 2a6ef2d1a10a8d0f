import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { openFolder } from '../../service/folder-calls.ts';
import { problemFrom } from '../../service/http.ts';
import { readSetting, writeSetting } from '../../state/settings.ts';

/** The folder that is open, where the last choice was made at first. */
export function useFolder() {
  const [path, setPath] = useState<string | undefined>(() =>
    readSetting<string | undefined>('folder', undefined),
  );
  const query = useQuery({
    queryKey: ['folder', path ?? ''],
    queryFn: () => openFolder(path),
    // files come and go without the service telling
    staleTime: 0,
    retry: false,
    placeholderData: keepPreviousData,
  });
  const problem = query.error ? problemFrom(query.error) : null;
  return {
    view: query.data,
    problem,
    open: setPath,
    startOver: () => setPath(undefined),
    /** the next choice begins here */
    remember: () => writeSetting('folder', query.data?.path),
  };
}
