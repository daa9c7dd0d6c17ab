//! The shipped content with some edits, read from a folder as a studio's own is. Whatever was edited: it is told with file
//! and line, or the content is good enough to plan a visit and to judge a report with.

#![no_main]

mod edits;

use std::{
    collections::BTreeMap,
    fs,
    path::{Path, PathBuf},
    sync::LazyLock,
};

use arbitrary::Arbitrary;
use chrono::NaiveDate;
use content::{Content, ContentError, Mistake};
use edits::Edit;
use libfuzzer_sys::fuzz_target;
use shared_types::{
    care_plan::{Person, PlanFor, Practice, own::Beside, plan},
    urgency::{Answers, judge},
    visit::{Findings, Treatment},
};
use tempfile::TempDir;

#[derive(Arbitrary, Debug)]
struct Input {
    /// Else English alone, which is read faster.
    every_language: bool,
    edits: Vec<Edit>,
}

/// More only take the same time again.
const MOST_EDITS: usize = 8;

struct Folder {
    place: TempDir,
    /// What was shipped, by path below the folder.
    shipped: BTreeMap<PathBuf, Vec<u8>>,
}

static EVERY_LANGUAGE: LazyLock<Folder> = LazyLock::new(|| Folder::shipped(|_| true));
static ENGLISH: LazyLock<Folder> = LazyLock::new(|| {
    Folder::shipped(|path| !path.starts_with("languages") || path.starts_with("languages/en"))
});

fuzz_target!(|input: Input| {
    let folder: &Folder = if input.every_language {
        &EVERY_LANGUAGE
    } else {
        &ENGLISH
    };
    let edited = folder.edited(&input.edits);
    folder.write(&edited);
    let read = Content::from_folder(folder.place.path());
    folder.take_back(&edited);
    match read {
        Ok(content) => is_usable(&content),
        Err(ContentError::Unreadable { path, .. }) => {
            assert!(path.starts_with(folder.place.path()), "{path:?}");
        }
        Err(ContentError::Mistakes(mistakes)) => {
            assert!(!mistakes.is_empty(), "refused for nothing");
            for mistake in &mistakes {
                folder.has_place(mistake, &edited);
            }
        }
    }
});

impl Folder {
    fn shipped(wanted: impl Fn(&Path) -> bool) -> Self {
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../content");
        let mut shipped = BTreeMap::new();
        for part in ["catalogue", "languages", "regions.toml"] {
            collect(&root, Path::new(part), &wanted, &mut shipped);
        }
        let place = TempDir::new().unwrap();
        for (path, bytes) in &shipped {
            let file = place.path().join(path);
            fs::create_dir_all(file.parent().unwrap()).unwrap();
            fs::write(file, bytes).unwrap();
        }
        Self { place, shipped }
    }

    /// The files that are not as shipped; `None` where one is gone.
    fn edited(&self, edits: &[Edit]) -> BTreeMap<&Path, Option<Vec<u8>>> {
        let mut changed: BTreeMap<&Path, Option<Vec<u8>>> = BTreeMap::new();
        for edit in edits.iter().take(MOST_EDITS) {
            let at = usize::from(edit.file) % self.shipped.len();
            let (path, shipped) = self.shipped.iter().nth(at).unwrap();
            let now = changed.entry(path).or_insert_with(|| Some(shipped.clone()));
            if let Some(bytes) = now.take() {
                *now = edit.change.of(bytes);
            }
        }
        changed
    }

    fn write(&self, edited: &BTreeMap<&Path, Option<Vec<u8>>>) {
        for (path, bytes) in edited {
            let file = self.place.path().join(path);
            match bytes {
                Some(bytes) => fs::write(file, bytes).unwrap(),
                None => fs::remove_file(file).unwrap(),
            }
        }
    }

    fn take_back(&self, edited: &BTreeMap<&Path, Option<Vec<u8>>>) {
        for path in edited.keys() {
            fs::write(self.place.path().join(path), &self.shipped[*path]).unwrap();
        }
    }

    /// A mistake names a file that is there or missing from where it belongs, a line that it has, and says what is wrong.
    fn has_place(&self, mistake: &Mistake, edited: &BTreeMap<&Path, Option<Vec<u8>>>) {
        assert!(!mistake.what.is_empty(), "{mistake:?}");
        let path = Path::new(&mistake.file);
        let known = self.shipped.keys().any(|one| one.starts_with(path));
        assert!(known, "{mistake:?}");
        let Some(line) = mistake.line else { return };
        let text = match edited.get(path) {
            Some(now) => now.as_ref().expect("no line of a file that is gone"),
            None => &self.shipped[path],
        };
        let lines = text.iter().filter(|byte| **byte == b'\n').count() + 1;
        assert!((1..=lines).contains(&line), "{lines} lines: {mistake:?}");
    }
}

fn collect(
    root: &Path,
    below: &Path,
    wanted: &impl Fn(&Path) -> bool,
    found: &mut BTreeMap<PathBuf, Vec<u8>>,
) {
    let from = root.join(below);
    if from.is_file() {
        if wanted(below) {
            found.insert(below.to_owned(), fs::read(from).unwrap());
        }
        return;
    }
    for entry in fs::read_dir(from).unwrap() {
        collect(root, &below.join(entry.unwrap().file_name()), wanted, found);
    }
}

/// What was taken can be used: a plan is made or refused in words, a report is judged.
fn is_usable(content: &Content) {
    let local_date = NaiveDate::from_ymd_opt(2026, 10, 24).unwrap();
    let finished_at = local_date.and_hms_opt(17, 30, 0).unwrap().and_utc();
    for treatment in Treatment::ALL {
        let visit = PlanFor {
            finished_at,
            local_date,
            treatments: &[*treatment],
            findings: Findings::default(),
            person: &Person::default(),
            practice: &Practice::default(),
            beside: Beside::default(),
        };
        if let Err(error) = plan(&content.catalogue, &visit) {
            assert!(!error.to_string().is_empty());
        }
    }
    let (rules, mistakes) = content.catalogue.urgency.compile();
    assert!(mistakes.is_empty(), "taken with mistakes in its rules");
    judge(&rules, &Answers::default());
}
