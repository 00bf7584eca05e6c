//! The word `shop`: settings shown, set and saved.

use super::reply::Reply;
use super::session::Session;
use crate::diag::Diagnostic;
use crate::shop::Settings;
use crate::shop::settings::FILE;

impl Session {
    pub(super) fn shop(&mut self, text: &str) -> Result<Reply, Diagnostic> {
        let all: Vec<String> = self.settings.all().into_iter().map(|setting| setting.name.into()).collect();
        let shop =
            |settings: &Settings, shown: Vec<String>| Ok(Reply::Shop { settings: settings.clone(), shown, file: None });
        if text.is_empty() {
            return shop(&self.settings, all);
        }
        if text == "save" {
            return self.save_settings();
        }
        let (name, value) =
            text.split_once(|letter: char| letter.is_whitespace() || letter == '=').unwrap_or((text, ""));
        let value = value.trim().trim_start_matches('=');
        if value.is_empty() && all.iter().any(|setting| setting == name) {
            return shop(&self.settings, vec![name.into()]);
        }
        let mut settings = self.settings.clone();
        settings.set(name, value)?;
        let before = std::mem::replace(&mut self.settings, settings);
        self.refit();
        let moved = |setting: &String| *setting == name || before.get(setting) != self.settings.get(setting);
        shop(&self.settings, all.into_iter().filter(moved).collect())
    }

    fn save_settings(&mut self) -> Result<Reply, Diagnostic> {
        let file = self.host.config().ok_or_else(|| Diagnostic::new("there is no folder for settings"))?.join(FILE);
        let old = match self.host.read(&file) {
            Ok(old) => old,
            Err(fault) if fault.trouble == crate::host::Trouble::Missing => String::new(),
            Err(fault) => return Err(fault.into()),
        };
        if Settings::read(&old, self.settings.rules.clone()).is_err() {
            let message = format!("{} has faults in it and is left as it is; mend or remove it first", file.display());
            return Err(Diagnostic::new(message));
        }
        self.host.write(&file, &self.settings.write(&old))?;
        let file = Some(file.display().to_string());
        Ok(Reply::Shop { settings: self.settings.clone(), shown: Vec::new(), file })
    }
}
