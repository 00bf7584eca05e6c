//! How a row came out.

/// How a row came out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum State {
    /// It can be made.
    Made,
    /// A check says that it cannot be made as it is.
    Stopped,
    /// There is no design.
    Failed,
}

impl State {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Made => "made",
            Self::Stopped => "stop",
            Self::Failed => "failed",
        }
    }
}
