import { changedAddress, type Filters, type Place, readPlace } from './address.ts';

/** After so long a rest the address follows a drag or typing: a browser allows only so many changes of it. */
export const ADDRESS_REST_MS = 300;

let place = $state.raw<Place>(readPlace(location.pathname + location.search));

/** The place now; reading it in a component makes the component follow it. */
export function currentPlace(): Place {
  return place;
}

/** Goes to an address of the workbench, as a link does. */
export function goTo(address: string): void {
  history.pushState(null, '', address);
  place = readPlace(address);
  scrollTo(0, 0);
}

/** Changes filters of the view; the step before stays in the history only where `isStep`. */
export function changeFilters(changes: Filters, isStep = false): void {
  const address = changedAddress(place, changes);
  if (isStep) history.pushState(null, '', address);
  else history.replaceState(null, '', address);
  place = readPlace(address);
}

/** Follows the browser's back and forward, and links to pages of the workbench. */
export function startRouter(): void {
  addEventListener('popstate', () => {
    place = readPlace(location.pathname + location.search);
  });
  document.addEventListener('click', (event) => {
    const link = event.target instanceof Element ? event.target.closest('a') : null;
    const isPlain = event.button === 0 && !event.ctrlKey && !event.metaKey && !event.shiftKey && !event.altKey;
    if (link === null || !isPlain || event.defaultPrevented || link.target !== '' || link.hasAttribute('download'))
      return;
    if (link.origin !== location.origin || link.pathname.startsWith('/api/')) return;
    if (link.hash !== '' && link.pathname === location.pathname) return;
    event.preventDefault();
    goTo(link.pathname + link.search);
  });
}
