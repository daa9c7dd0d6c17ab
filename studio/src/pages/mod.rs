//! From what the record holds to HTML: the page's state is filled in, drawn by the same components that the browser
//! has, and sent along with them.

pub mod advised;
pub mod artist;
pub mod batches;
pub mod before;
pub mod case;
mod cautions;
pub mod client;
pub mod desk;
mod document;
pub mod kept;
mod languages;
pub mod lengths;
pub mod live;
pub mod looked;
pub mod notices;
pub mod occasion;
pub mod own_advice;
pub mod patch_test;
pub mod patch_tests;
pub mod photos;
pub mod print;
pub mod report;
pub mod reports;
pub mod sources;
pub mod still;
pub mod trouble;
pub mod visits;
pub mod wall;
pub mod wishes;

use axum::{
    http::header,
    response::{Html, IntoResponse, Response},
};
use mobile::{
    artist::ArtistApp,
    client::{ClientApp, trouble::TroubleApp},
    patch_test::patch_test,
    picture::stills,
};
use shared_types::{
    page::{
        artist::{ArtistPage, Notice, Screen},
        client::ClientPage,
        patch_tests::PatchTestPage,
        trouble::TroublePage,
    },
    visit::Area,
    wire::Waiting,
};

use crate::{advice::Advice, error::Refusal, record::studio::Particulars, state::Studio};
use document::{Document, Style};

/// How a notice is dressed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    Plain,
    /// With the script that makes a phone drop what it kept for this address.
    Forgetting,
}

/// The client's page, and the languages that it can be read in.
pub fn client(
    studio: &Studio,
    mut page: ClientPage,
    languages: &[String],
) -> Result<Html<String>, Refusal> {
    let links = languages::links(studio, &page.path, &page.still.language, languages);
    page.still.head.insert_str(0, &links);
    let (language, title) = (page.still.language.clone(), page.still.title.clone());
    around_a_client(studio, language, title).draw(ClientApp, page)
}

/// The page for when something is not right.
pub fn trouble(
    studio: &Studio,
    mut page: TroublePage,
    languages: &[String],
) -> Result<Html<String>, Refusal> {
    let links = languages::links(studio, &page.path, &page.still.language, languages);
    page.still.head.insert_str(0, &links);
    let (language, title) = (page.still.language.clone(), page.still.title.clone());
    around_a_client(studio, language, title).draw(TroubleApp, page)
}

/// What stands around a page of a client's that the phone takes over.
fn around_a_client(studio: &Studio, language: String, title: String) -> Document<'_> {
    let addresses = &studio.site.addresses;
    Document {
        language,
        title,
        icon: &addresses.icon,
        style: Style::Inline {
            first: &studio.site.client_style,
            below: &addresses.client_style_below,
        },
        script: Some(&addresses.client_script),
        photos: Some(&addresses.photos_script),
        alive: true,
    }
}

/// The client's page of a patch test. Nothing in it moves, so there is no script to it.
pub fn patch_test_page(
    studio: &Studio,
    page: PatchTestPage,
    languages: &[String],
) -> Result<Html<String>, Refusal> {
    let addresses = &studio.site.addresses;
    let title = page.words.fill(
        "patch_test.page_title",
        &[("name", &page.first_name), ("studio", &page.studio.name)],
    );
    let links = languages::links(studio, &page.path, &page.language, languages);
    Document {
        language: page.language.clone(),
        title,
        icon: &addresses.icon,
        style: Style::Inline {
            first: &studio.site.client_style,
            below: &addresses.client_style_below,
        },
        script: None,
        photos: None,
        alive: false,
    }
    .around(&format!(
        "<div id=\"main\">{}</div>",
        dioxus_ssr::render_element(patch_test(&page, &links))
    ))
}

/// One of the artist's screens.
pub fn artist(studio: &Studio, page: ArtistPage) -> Result<Html<String>, Refusal> {
    let addresses = &studio.site.addresses;
    Document {
        language: page.language.clone(),
        title: artist_title(&page),
        icon: &addresses.icon,
        style: Style::File(&addresses.artist_style),
        script: Some(&addresses.artist_script),
        photos: None,
        alive: true,
    }
    .draw(ArtistApp, page)
}

/// The picture of regrowth of one area on one day, as a file named after the day.
pub fn still(advice: &Advice, area: &str, file: &str) -> Result<Response, Refusal> {
    let area: Area = area.parse().map_err(|_| Refusal::NotFound)?;
    let day = file
        .strip_suffix(".svg")
        .and_then(|day| day.parse().ok())
        .filter(|day| stills::DAYS.contains(day))
        .ok_or(Refusal::NotFound)?;
    let picture = advice
        .weeks
        .iter()
        .flat_map(|weeks| &weeks.areas)
        .find(|one| one.area == area)
        .and_then(|one| one.picture.as_ref())
        .ok_or(Refusal::NotFound)?;
    let kind = [(header::CONTENT_TYPE, "image/svg+xml")];
    Ok((kind, stills::svg(picture, day)).into_response())
}

/// A page that only says something, for whoever has no screen to be shown. It is not brought to life.
pub fn notice(
    studio: &Studio,
    particulars: Option<&Particulars>,
    language: &str,
    notice: Notice,
    look: Look,
) -> Result<Html<String>, Refusal> {
    let addresses = &studio.site.addresses;
    let (language, words) = studio.words(language);
    let page = ArtistPage {
        build: studio.site.build.clone(),
        now: chrono::Utc::now(),
        language: language.to_owned(),
        words: words.only(artist::WORDS),
        studio_name: particulars.map_or_else(String::new, |studio| studio.name.clone()),
        csrf: String::new(),
        waiting: Waiting::default(),
        not_told: String::new(),
        screen: Screen::Notice(notice),
    };
    Document {
        language: page.language.clone(),
        title: artist_title(&page),
        icon: &addresses.icon,
        style: Style::File(&addresses.artist_style),
        script: (look == Look::Forgetting).then_some(addresses.forget_script.as_str()),
        photos: None,
        alive: false,
    }
    .draw(ArtistApp, page)
}

fn artist_title(page: &ArtistPage) -> String {
    let screen = match &page.screen {
        Screen::Begin(_) => "begin",
        Screen::SignIn(_) => "sign_in",
        Screen::Today(_) => "today",
        Screen::RecordVisit(_) => "record",
        Screen::Visit(_) => "visit",
        Screen::PutOff(_) => "put_off",
        Screen::Practice(_) => "practice",
        Screen::Notices(_) => "notices",
        Screen::Batches(_) => "batches",
        Screen::Cautions(_) => "cautions",
        Screen::Caution(_) | Screen::AddCaution(_) => "caution",
        Screen::Labels(_) => "labels",
        Screen::Particulars(_) => "particulars",
        Screen::Reports(_) => "reports",
        Screen::Report(_) => "report",
        Screen::Desk(_) => "desk",
        Screen::Wishes(_) => "wishes",
        Screen::Wish(_) => "wish",
        Screen::NewPatchTest(_) => "patch_test_new",
        Screen::PatchTests(_) => "patch_tests",
        Screen::PatchTest(_) => "patch_test",
        Screen::Notice(_) => "notice",
    };
    let screen = page
        .words
        .say(&format!("artist.page_title.{screen}"))
        .to_owned();
    if page.studio_name.is_empty() {
        screen
    } else {
        format!("{screen} · {}", page.studio_name)
    }
}
