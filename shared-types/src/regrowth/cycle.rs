//! The hair cycle as mean stays, and the shares that follow from them.

/// Mean days in each phase. What is computed here holds for every distribution of stays with these means
/// (renewal-reward theorem), as long as the cycle has run for a while.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cycle {
    pub anagen: f64,
    pub catagen: f64,
    pub telogen: f64,
    pub kenogen: f64,
}

impl Cycle {
    /// Days from one hair's start to the next.
    pub fn total(&self) -> f64 {
        self.anagen + self.catagen + self.telogen + self.kenogen
    }

    /// Shares of follicles in anagen, catagen, telogen and kenogen; they sum to 1.
    pub fn shares(&self) -> [f64; 4] {
        [self.anagen, self.catagen, self.telogen, self.kenogen].map(|stay| stay / self.total())
    }

    /// Days in catagen and telogen together: the hair stands, and does not grow.
    pub fn resting(&self) -> f64 {
        self.catagen + self.telogen
    }

    /// Days in a cycle with nothing to be seen: the empty follicle, and the new hair still below the surface.
    pub fn unseen(&self, transit: f64) -> f64 {
        self.kenogen + transit
    }
}
