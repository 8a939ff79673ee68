//! Mixes as they are called out at the tarp, and the rows of what one was made of.

use crate::earth::mixture;
use crate::known::Known;
use crate::row::Rows;

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

    /// Rows of what one mix was made of: buckets of each ingredient, and the share of the first so many.
    pub(super) fn made_of(
        &self,
        buckets: &[Option<Known<f64>>],
        (told, of): (usize, &str),
        share_path: impl Fn(&str) -> String,
        rows: &mut Rows,
    ) {
        let parts = |count: usize| {
            let own = self.names.iter().zip(buckets).take(count);
            own.filter_map(|(name, own)| Some((*name, own.as_ref()?)))
        };
        let mut inputs = Vec::new();
        for (name, own) in parts(buckets.len()) {
            rows.known(format!("buckets of {} in {of}", name.replace('-', " ")), own);
            inputs.push((format!("buckets of {name}"), own.path.clone(), own.value));
        }
        let all = inputs.iter().map(|(.., own)| own).sum();
        for (name, own) in parts(told) {
            let answer = mixture::share(own.value, all).from("buckets", own.path.as_str()).without("all");
            let others = inputs.iter().filter(|(_, path, _)| *path != own.path).cloned().collect();
            let title = format!("share of {} in {of}", name.replace('-', " "));
            rows.add(share_path(name), title, answer.of_parts(others));
        }
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
