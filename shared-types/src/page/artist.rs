//! The artist's screens.

use chrono::{DateTime, Utc, serde::ts_seconds};
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::{
    batches::BatchesScreen,
    before::{BeforePart, BeforeView, PutOffLine, PutOffView},
    client::{CautionCard, ComeBack, Figure, Moment},
    form::Filled,
    notices::NoticesScreen,
    own_advice::{AddCaution, CautionsScreen, ChangeCaution, LabelsScreen, WhoseLine},
    patch_tests::{NewPatchTest, PatchTestLine, PatchTestView, PatchTests},
    reports::{DeskScreen, NotAgainLine, ReportLine, ReportView, Reports},
    wishes::{WishLine, WishView, Wishes},
    zones::ZonesCard,
};
use crate::{wire::Waiting, words::Words, zones::Zones};

/// What every screen of the artist's carries, and the screen itself.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ArtistPage {
    pub build: String,
    #[serde(with = "ts_seconds")]
    pub now: DateTime<Utc>,
    pub language: String,
    /// The keys below `artist.`, `picture.`, `treatment.`, `finding.`, `side.`, `zone.`, `mark.`, `fault.`,
    /// `urgency.answer.`, `plural.`, `list.`.
    pub words: Words,
    /// Empty until the studio has been set up.
    pub studio_name: String,
    /// The token that every form of a signed-in artist sends back; empty when nobody is signed in.
    pub csrf: String,
    pub waiting: Waiting,
    /// That notices do not get through, above the lists; empty when they do.
    pub not_told: String,
    pub screen: Screen,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Screen {
    Begin(Begin),
    SignIn(SignIn),
    Today(Today),
    RecordVisit(Box<RecordVisit>),
    Visit(Box<VisitView>),
    PutOff(Box<PutOffView>),
    Practice(PracticeScreen),
    Notices(NoticesScreen),
    Batches(BatchesScreen),
    Cautions(CautionsScreen),
    Caution(ChangeCaution),
    AddCaution(AddCaution),
    Labels(LabelsScreen),
    Particulars(ParticularsScreen),
    Reports(Reports),
    Report(Box<ReportView>),
    Desk(DeskScreen),
    Wishes(Wishes),
    Wish(Box<WishView>),
    NewPatchTest(Box<NewPatchTest>),
    PatchTests(PatchTests),
    PatchTest(Box<PatchTestView>),
    /// Something went wrong or is not there: a heading and a sentence that says what to do.
    Notice(Notice),
}

/// First start: the studio and the artist's account are made. Fields: `code, studio_name, artist_name, phone,
/// contact_email, region, time_zone, email, password`.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Begin {
    pub form: Filled,
    /// Value and name of each region.
    pub regions: Vec<(String, String)>,
    /// IANA names.
    pub time_zones: Vec<String>,
    /// Tag and name of each language.
    pub languages: Vec<(String, String)>,
}

/// The studio's particulars, to be changed. Fields: `studio_name, phone, contact_email, region, time_zone,
/// language`.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct ParticularsScreen {
    pub form: Filled,
    /// Value and name of each region.
    pub regions: Vec<(String, String)>,
    /// IANA names.
    pub time_zones: Vec<String>,
    /// Tag and name of each language.
    pub languages: Vec<(String, String)>,
}

/// How the studio works. Fields: `prefers, closed*, patch_test_days`, and for each treatment `earliest_T, best_T, latest_T, unit_T
/// (weeks, days), sooner_T (yes)`.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct PracticeScreen {
    pub form: Filled,
    /// "Last changed Thursday 14:30 by Ilse"; empty when nothing was set yet.
    pub changed: String,
    /// Term and words of what the studio may aim at.
    pub aims: Vec<(String, String)>,
    /// Term and name of the days of the week.
    pub weekdays: Vec<(String, String)>,
    /// What holds without an own limit for patch tests.
    pub patch_days_hint: String,
    pub treatments: Vec<OwnIntervalLine>,
}

/// One treatment for which the studio may set its own interval.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct OwnIntervalLine {
    pub term: String,
    pub name: String,
    /// What holds without an own interval, in one sentence.
    pub usual: String,
    /// Asked when something sooner than the trade was given: that this is known.
    pub ask_sooner: String,
}

/// Fields: `email, password`.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct SignIn {
    pub form: Filled,
}

/// The first screen after signing in.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Today {
    /// Unsettled reports, newest first, a few.
    pub reports: Vec<ReportLine>,
    /// Unsettled wishes, newest first, a few.
    pub wishes: Vec<WishLine>,
    /// Patch tests to be read, most urgent first, a few.
    pub patch_tests: Vec<PatchTestLine>,
    /// Latest visits, newest first.
    pub visits: Vec<VisitLine>,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct VisitLine {
    pub id: Uuid,
    pub first_name: String,
    pub finished: Moment,
    pub done: Vec<String>,
    pub opened: Option<Moment>,
    pub reports: u32,
}

/// Fields: `visit_id` (made by the server, so that a double tap records one visit), `client` (a known client's id, or
/// empty for a new one), `first_name, reach, date (YYYY-MM-DD), time (HH:MM), treatments*, findings*, during*,
/// product_1 … product_4, batch_1 … batch_4, note, flags*`; `seen_AREA` and `first_hairs_AREA` for each of
/// [`LookAgain::areas`], with `looked_at` for the client whom they are about; and `look_up`, the button that asks for the
/// form again with what is known of the chosen client; and a
/// `zone_SIDE_ZONE` for each place of the brows, with `zones_of` for whose marks the form began with; and the fields of
/// [`BeforePart`].
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct RecordVisit {
    pub visit_id: Uuid,
    pub form: Filled,
    /// Id and "first name · reach" of the clients in the record, by name.
    pub clients: Vec<(String, String)>,
    /// Term and name of the treatments that the catalogue holds.
    pub treatments: Vec<(String, String)>,
    /// Term and name of what the consultation may find.
    pub findings: Vec<(String, String)>,
    /// Term and name of what may have happened during the visit.
    pub during: Vec<(String, String)>,
    /// Names of products used lately, offered while typing.
    pub known_products: Vec<String>,
    pub look_again: LookAgain,
    pub before: BeforePart,
}

/// What was removed at earlier visits of the chosen client, and what may be noted about it today.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct LookAgain {
    /// The client's id; empty for nobody known.
    pub client: String,
    pub areas: Vec<AreaToLookAt>,
    /// Value and name of the five shares, and at the end the empty value for not having looked.
    pub shares: Vec<(String, String)>,
    /// Term and name of what a forecast cannot follow.
    pub flags: Vec<(String, String)>,
}

/// An area with a removal that hair may have come back from.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct AreaToLookAt {
    /// The term of the [`crate::visit::Area`].
    pub area: String,
    /// "Brows"
    pub name: String,
    /// "Brow wax, 36 days ago"
    pub removed: String,
    /// "Forecast: about half is back"
    pub expected: String,
    /// The visit of the removal, and whole days since.
    pub visit: Uuid,
    pub days: u32,
    /// What was forecast then, as it is drawn; none where nothing was.
    pub forecast: Option<Figure>,
}

/// Something that was seen, beside what had been forecast.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Looked {
    /// "Brows, 36 days after the brow wax"
    pub what: String,
    pub expected: String,
    pub seen: String,
}

/// A visit after it was recorded: the QR, the link, and what the client is told.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct VisitView {
    pub id: Uuid,
    pub client: Uuid,
    pub first_name: String,
    pub reach: String,
    pub finished: Moment,
    pub done: Vec<String>,
    pub findings: Vec<String>,
    /// Names of what a forecast cannot follow.
    pub flags: Vec<String>,
    pub products: Vec<ProductLine>,
    /// What is not to be used again for this client.
    pub not_again: Vec<NotAgainLine>,
    pub note: String,
    /// What was seen at this visit of the hair removed before it.
    pub looked: Vec<Looked>,
    /// What stood against it and what was decided; `None` where nothing was kept of that.
    pub before: Option<BeforeView>,
    /// What was put off for this client, the latest first.
    pub put_off: Vec<PutOffLine>,
    /// What that means for the next forecast, in one sentence; empty when nothing was seen so far.
    pub pace: String,
    pub zones: Zones,
    /// What the client is told of them.
    pub zones_told: Option<ZonesCard>,
    pub cautions: Vec<CautionCard>,
    /// Whose advice each of them is.
    pub whose: Vec<WhoseLine>,
    pub come_back: Option<ComeBack>,
    /// What the forecast rests on, as the client reads it.
    pub about: Vec<String>,
    pub areas: Vec<Figure>,
    /// The date that the client wants to look their best for, and how it can be met; empty when none was given.
    pub occasion: Vec<String>,
    pub link: LinkView,
    pub reports: Vec<ReportLine>,
    pub wishes: Vec<WishLine>,
    pub photos: EndPhotos,
}

/// The photos that were taken at the end of a visit, and the form for another.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct EndPhotos {
    pub photos: Vec<PhotoView>,
    /// Whether there is room for one more.
    pub more: bool,
    /// Of the words that the client agrees to.
    pub consent_version: String,
    pub form: Filled,
}

/// A photo as the artist sees it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PhotoView {
    pub id: Uuid,
    /// When it was received.
    pub at: Moment,
    /// Pixels.
    pub width: u32,
    pub height: u32,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct ProductLine {
    pub name: String,
    pub batch: String,
}

/// The client's link as the artist sees it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct LinkView {
    /// The whole address; empty once it was revoked or has expired.
    pub url: String,
    pub opened: Option<Moment>,
    /// "Read in Español."; empty until it was opened.
    pub read_in: String,
    pub expires: Moment,
    pub revoked: Option<Moment>,
}

#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Notice {
    pub heading: String,
    pub sentence: String,
    /// Where to go from here: the artist to the first screen, the client to the studio's telephone or e-mail.
    pub onward: Vec<Onward>,
}

/// A link with its words.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Onward {
    pub text: String,
    /// A path of ours, or `tel:` or `mailto:`.
    pub address: String,
}
