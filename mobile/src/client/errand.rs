//! What a client can send the studio.

/// A report, how it went on since, or a wish for a time: one way of getting there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Errand {
    Report,
    FollowUp,
    Wish,
}

impl Errand {
    /// In the order in which they leave the phone: nobody who worries waits behind a wish.
    pub const ALL: [Errand; 3] = [Errand::Report, Errand::FollowUp, Errand::Wish];

    /// How the part of the address begins that takes it, below the page's own.
    pub const fn place(self) -> &'static str {
        match self {
            Errand::Report => "reports",
            Errand::FollowUp => "follow-ups",
            Errand::Wish => "wishes",
        }
    }

    /// The id of its form.
    pub const fn form(self) -> &'static str {
        match self {
            Errand::Report => "report",
            Errand::FollowUp => "reports",
            Errand::Wish => "wish-form",
        }
    }

    /// Where its sender looks for it: an address below the page's own.
    pub const fn way(self) -> &'static str {
        match self {
            Errand::Report => "/trouble#report",
            Errand::FollowUp => "#reports",
            Errand::Wish => "#wish-form",
        }
    }

    /// Where the first sentence stands that says what needs mending.
    pub const fn first_fault(self) -> &'static str {
        match self {
            Errand::Wish => "#wish .fault",
            _ => "#report .fault",
        }
    }

    /// The place that says where it is, in the document; and the class of that place.
    pub const fn told_at(self) -> &'static str {
        match self {
            Errand::Wish => ".wish-whereabouts",
            _ => ".whereabouts",
        }
    }

    pub const fn whereabouts(self) -> &'static str {
        match self {
            Errand::Wish => "wish-whereabouts",
            _ => "whereabouts",
        }
    }
}
