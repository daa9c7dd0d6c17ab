//! Every address of the studio, by who calls it.

use std::time::Duration;

use axum::{
    Router,
    extract::{DefaultBodyLimit, Request, State},
    http::{HeaderMap, HeaderValue, Uri, header},
    middleware::{Next, from_fn, from_fn_with_state, map_response},
    response::{IntoResponse, Response},
    routing::{get, head, post, put},
};

use crate::{
    compress,
    error::{Audience, Refusal, said, words_for},
    handlers::{
        artist::{
            batches, begin, case, desk, inbox, link, live, notices, own_advice, particulars,
            patch_tests, photos as artist_photos, practice, print as artist_print, put_off,
            record_visit, report, sign_in, today, visit, waits, wish,
        },
        client::{
            calendar, follow_ups, language, occasion, opened, page, patch_test, photos,
            print as client_print, reports, standing, still, trouble, wishes,
        },
        posted::LARGEST_BODY,
        site,
    },
    logging,
    security::{headers, origin},
    state::Shared,
};

/// How long a request may take, its arrival included.
const PATIENCE: Duration = Duration::from_secs(30);
/// As [`PATIENCE`], where a form brings photos: four of 10 MB by a phone's slow network (1.6 Mbit/s up) take 200 s.
const PATIENCE_WITH_PHOTOS: Duration = Duration::from_secs(300);

/// The whole studio.
pub fn routes(studio: &Shared) -> Router {
    // The client, who scanned the code or followed the link.
    let client_pages = Router::new()
        .route("/MY/{secret}", get(page::show))
        .route("/my/{secret}", get(page::by_hand))
        .route("/MY/{secret}/in/{language}", get(language::choose))
        .route("/MY/{secret}/regrowth/{area}/{day}", get(still::show))
        .route("/MY/{secret}/print", get(client_print::sheet))
        .route(
            "/MY/{secret}/trouble",
            get(trouble::show).post(trouble::advise),
        )
        .route(
            "/MY/{secret}/reports/{id}/follow-ups/{hours}",
            post(follow_ups::post),
        )
        .route("/MY/{secret}/occasion", post(occasion::post))
        .route("/MY/{secret}/calendar", get(calendar::way))
        .route("/MY/{secret}/calendar.ics", get(calendar::file))
        .route("/MY/{secret}/wishes", post(wishes::post))
        // The page of a patch test.
        .route("/MY/{secret}/seen", post(patch_test::post));

    // The same, with photos, which take their time.
    let client_with_photos = Router::new().route("/MY/{secret}/reports", post(reports::post));

    // The client's page, once it is alive.
    let client_code = Router::new()
        .route("/MY/{secret}/reports/{id}", put(reports::put))
        .route(
            "/MY/{secret}/reports/{id}/follow-ups/{hours}",
            put(follow_ups::put),
        )
        .route(
            "/MY/{secret}/reports/{id}/photos/{photo}",
            head(photos::offset).get(photos::show).patch(photos::piece),
        )
        .route("/MY/{secret}/wishes/{id}", put(wishes::put))
        .route("/MY/{secret}/standing", get(standing::show))
        .route("/MY/{secret}/opened", post(opened::note));

    let artist_pages = Router::new()
        // Whoever opens the studio's address.
        .route("/", get(site::front))
        // The artist, before being signed in.
        .route("/studio/begin", get(begin::show).post(begin::send))
        .route("/studio/sign-in", get(sign_in::show).post(sign_in::send))
        // The artist, signed in.
        .route("/studio/sign-out", post(sign_in::out))
        .route("/studio", get(today::show))
        .route(
            "/studio/visits/new",
            get(record_visit::show).post(record_visit::send),
        )
        .route("/studio/put-off/{id}", get(put_off::show))
        .route("/studio/visits/{id}", get(visit::show))
        .route("/studio/visits/{id}/hand-over", get(artist_print::sheet))
        .route("/studio/visits/{id}/card", get(artist_print::card))
        .route("/studio/visits/{id}/qr.svg", get(visit::code))
        .route(
            "/studio/visits/{id}/regrowth/{area}/{day}",
            get(visit::still),
        )
        .route("/studio/visits/{id}/revoke", post(link::revoke))
        .route("/studio/visits/{id}/link", post(link::renew))
        .route("/studio/patch-tests", get(patch_tests::list))
        .route(
            "/studio/patch-tests/new",
            get(patch_tests::begin::show).post(patch_tests::begin::send),
        )
        .route("/studio/patch-tests/{id}", get(patch_tests::show))
        .route("/studio/patch-tests/{id}/qr.svg", get(patch_tests::code))
        .route("/studio/patch-tests/{id}/read", post(patch_tests::read))
        .route(
            "/studio/patch-tests/{id}/withdraw",
            post(patch_tests::withdraw),
        )
        .route("/studio/patch-tests/{id}/revoke", post(patch_tests::revoke))
        .route("/studio/patch-tests/{id}/link", post(patch_tests::renew))
        .route("/studio/practice", get(practice::show).post(practice::send))
        .route("/studio/batches", get(batches::show))
        .route("/studio/batches/counts.json", get(batches::counts))
        .route("/studio/notices", get(notices::show).post(notices::send))
        .route("/studio/notices/test", post(notices::test))
        .route("/studio/cautions", get(own_advice::show))
        .route("/studio/cautions/new", get(own_advice::add::fresh))
        .route(
            "/studio/cautions/own/{id}",
            get(own_advice::add::show).post(own_advice::add::send),
        )
        .route(
            "/studio/cautions/{treatment}/{kind}",
            get(own_advice::change::show).post(own_advice::change::send),
        )
        .route(
            "/studio/labels",
            get(own_advice::labels::show).post(own_advice::labels::send),
        )
        .route(
            "/studio/particulars",
            get(particulars::show).post(particulars::send),
        )
        .route("/studio/reports", get(inbox::show))
        .route("/studio/reports/replies", get(desk::show).post(desk::send))
        .route("/studio/reports/{id}", get(report::show))
        .route("/studio/reports/{id}/answer", post(report::answer))
        .route("/studio/photos/{id}", get(artist_photos::show))
        .route(
            "/studio/photos/{id}/take-out",
            post(artist_photos::take_out),
        )
        .route("/studio/reports/{id}/case", get(case::page))
        .route("/studio/reports/{id}/case.json", get(case::data))
        .route("/studio/reports/{id}/seen", post(report::see))
        .route("/studio/reports/{id}/outcome", post(report::note_outcome))
        .route("/studio/reports/{id}/not-again", post(report::note))
        .route("/studio/reports/{id}/lift", post(report::lift))
        .route(
            "/studio/reports/{id}/settle",
            post(waits::settle::<waits::Reports>),
        )
        .route(
            "/studio/reports/{id}/reopen",
            post(waits::reopen::<waits::Reports>),
        )
        .route("/studio/wishes", get(wish::list))
        .route("/studio/wishes/{id}", get(wish::show))
        .route("/studio/wishes/{id}/answer", post(wish::answer))
        .route("/studio/wishes/{id}/call-off", post(wish::call_off))
        .route(
            "/studio/wishes/{id}/settle",
            post(waits::settle::<waits::Wishes>),
        )
        .route(
            "/studio/wishes/{id}/reopen",
            post(waits::reopen::<waits::Wishes>),
        );

    // The same, with photos, which take their time.
    let artist_with_photos =
        Router::new().route("/studio/visits/{id}/photos", post(artist_photos::add));

    // The artist's screen, while the code is on it, and for as long as it is open.
    let artist_code = Router::new()
        .route("/studio/visits/{id}/opened", get(visit::opened))
        .route("/studio/live", get(live::tell));

    // Browsers, for what pages are made of; search engines.
    let files = Router::new()
        .route("/pkg/{*file}", get(site::file))
        .route("/MY/worker.js", get(site::worker))
        .route("/robots.txt", get(site::robots));

    // Whoever watches the server, or writes to it from code.
    let watchers = Router::new()
        .route("/healthz", get(site::health))
        .route("/openapi.json", get(site::description));

    Router::new()
        .merge(guarded(client_pages, studio, Audience::Client).layer(map_response(by_language)))
        .merge(
            guarded_for(
                client_with_photos,
                studio,
                Audience::Client,
                PATIENCE_WITH_PHOTOS,
            )
            .layer(map_response(by_language)),
        )
        .merge(guarded(client_code, studio, Audience::Code).layer(map_response(by_language)))
        .merge(guarded(artist_pages, studio, Audience::Artist))
        .merge(guarded_for(
            artist_with_photos,
            studio,
            Audience::Artist,
            PATIENCE_WITH_PHOTOS,
        ))
        .merge(guarded(artist_code, studio, Audience::Code))
        .merge(guarded(files, studio, Audience::Artist))
        .merge(guarded(watchers, studio, Audience::Code))
        .fallback(nothing_here)
        .layer(from_fn(compress::answers))
        .layer(from_fn_with_state(studio.clone(), headers::on_every_answer))
        .layer(from_fn(logging::each_request))
        .with_state(studio.clone())
}

/// What holds for every route: size, time, our own pages only, and refusals in words.
fn guarded(routes: Router<Shared>, studio: &Shared, audience: Audience) -> Router<Shared> {
    guarded_for(routes, studio, audience, PATIENCE)
}

fn guarded_for(
    routes: Router<Shared>,
    studio: &Shared,
    audience: Audience,
    patience: Duration,
) -> Router<Shared> {
    routes
        .layer(DefaultBodyLimit::max(LARGEST_BODY))
        .layer(from_fn_with_state(patience, in_time))
        .layer(from_fn_with_state(studio.clone(), from_our_own_pages))
        .layer(from_fn_with_state((studio.clone(), audience), said))
}

async fn in_time(State(patience): State<Duration>, request: Request, next: Next) -> Response {
    match tokio::time::timeout(patience, next.run(request)).await {
        Ok(response) => response,
        Err(_) => Refusal::TooSlow.into_response(),
    }
}

async fn from_our_own_pages(
    State(studio): State<Shared>,
    request: Request,
    next: Next,
) -> Response {
    if !request.method().is_safe() && origin::is_foreign(request.headers(), &studio.public_url) {
        return Refusal::ForeignSite.into_response();
    }
    next.run(request).await
}

/// What a client is answered depends on the language they chose and on those their phone asks for.
async fn by_language(mut response: Response) -> Response {
    response.headers_mut().append(
        header::VARY,
        HeaderValue::from_static("accept-language, cookie"),
    );
    response
}

async fn nothing_here(State(studio): State<Shared>, uri: Uri, headers: HeaderMap) -> Response {
    let is_clients = uri
        .path()
        .get(..4)
        .is_some_and(|start| start.eq_ignore_ascii_case("/my/"));
    let audience = if is_clients {
        Audience::Client
    } else {
        Audience::Artist
    };
    let wanted = audience.wanted(&studio, &headers);
    words_for(&studio, audience, &wanted, &Refusal::NotFound)
}
