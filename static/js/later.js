// Brings in what takes a while to reckon, once the page is there; a link beside it leads there too.
export default async function later(place) {
  try {
    const answer = await fetch(place.dataset.later);
    // A sign-in that has run out leads elsewhere, which is not what belongs here.
    if (answer.ok && !answer.redirected) place.innerHTML = await answer.text();
  } catch {
    // Without a signal the place stays empty, and the link beside it says so when it is followed.
  }
}
