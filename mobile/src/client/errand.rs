//! What a client can send the studio.

use shared_types::wish;

/// A report, or a wish for a time: two forms, one way of getting there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Errand {
    Report,
    Wish,
}

impl Errand {
    /// In the order in which they leave the phone: nobody who worries waits behind a wish.
    pub const ALL: [Errand; 2] = [Errand::Report, Errand::Wish];

    /// The part of the address that takes it, below the page's own.
    pub const fn place(self) -> &'static str {
        match self {
            Errand::Report => "reports",
            Errand::Wish => "wishes",
        }
    }

    /// The id of its form.
    pub const fn form(self) -> &'static str {
        match self {
            Errand::Report => "report",
            Errand::Wish => "wish-form",
        }
    }

    /// What the client fills in; the rest of the form is the page's own.
    pub const fn fields(self) -> &'static [&'static str] {
        match self {
            Errand::Report => &["signs", "since", "trend", "words", "reach", "consent"],
            Errand::Wish => &wish::FIELDS,
        }
    }

    /// Where the first sentence stands that says what needs mending.
    pub const fn first_fault(self) -> &'static str {
        match self {
            Errand::Report => "#report .fault",
            Errand::Wish => "#wish .fault",
        }
    }

    /// The place that says where it is, in the document; and the class of that place.
    pub const fn told_at(self) -> &'static str {
        match self {
            Errand::Report => ".whereabouts",
            Errand::Wish => ".wish-whereabouts",
        }
    }

    pub const fn whereabouts(self) -> &'static str {
        match self {
            Errand::Report => "whereabouts",
            Errand::Wish => "wish-whereabouts",
        }
    }
}
