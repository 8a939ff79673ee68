//! Mixes of whole steps as they are called out at the tarp.

/// Ingredients, and the least part of a bucket that is measured.
pub(super) struct Called<'a> {
    pub(super) names: Vec<&'a str>,
    pub(super) step: f64,
}

impl Called<'_> {
    /// A mix as it is called: "6 soil : 5 sand".
    pub(super) fn mix(&self, counts: &[u32]) -> String {
        let parts = self.names.iter().zip(counts);
        let parts = parts.map(|(name, count)| format!("{} {}", self.buckets(*count), name.replace('-', " ")));
        parts.collect::<Vec<_>>().join(" : ")
    }

    /// Buckets of so many steps as they are called, to the hundredth.
    fn buckets(&self, steps: u32) -> String {
        ((f64::from(steps) * self.step * 100.0).round() / 100.0).to_string()
    }

    /// From how few to how many buckets of each ingredient some mixes have.
    pub(super) fn region<'m>(&self, mixes: impl Iterator<Item = &'m [u32]> + Clone) -> String {
        let parts = self.names.iter().enumerate().map(|(place, name)| {
            let name = name.replace('-', " ");
            let [least, most] =
                [u32::min, u32::max].map(|side| mixes.clone().map(|own| own[place]).reduce(side).unwrap_or(0));
            match least == most {
                true => format!("{} {name}", self.buckets(least)),
                false => format!("{} to {} {name}", self.buckets(least), self.buckets(most)),
            }
        });
        parts.collect::<Vec<_>>().join(", ")
    }
}
