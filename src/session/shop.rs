//! The word `shop`: settings shown, set and saved.

use super::reply::{Faults, Reply};
use super::session::Session;
use crate::diag::{Diagnostic, codes};
use crate::shop::Settings;
use crate::shop::settings::{FILE, SettingFault};
use crate::word::{Args, Kind};

impl Session {
    pub(super) fn shop(&mut self, _: &Args) -> Result<Reply, Faults> {
        Ok(self.shop_page(self.setting_names()))
    }

    pub(super) fn shop_show(&mut self, args: &Args) -> Result<Reply, Faults> {
        let name = args.text(Kind::Setting);
        if self.setting_names().iter().any(|setting| setting == name) {
            return Ok(self.shop_page(vec![name.into()]));
        }
        self.shop_set(args)
    }

    pub(super) fn shop_set(&mut self, args: &Args) -> Result<Reply, Faults> {
        let (name, value) = (args.text(Kind::Setting), args.text(Kind::SettingValue));
        let mut settings = self.settings.clone();
        settings.set(name, value).map_err(|fault| {
            let wrong = if matches!(fault, SettingFault::Unknown { .. }) { Kind::Setting } else { Kind::SettingValue };
            Diagnostic::from(fault).at(args.span(wrong))
        })?;
        let before = std::mem::replace(&mut self.settings, settings);
        self.refit();
        let moved = |setting: &String| *setting == name || before.get(setting) != self.settings.get(setting);
        Ok(self.shop_page(self.setting_names().into_iter().filter(moved).collect()))
    }

    pub(super) fn shop_save(&mut self, _: &Args) -> Result<Reply, Faults> {
        let file = self
            .host
            .config()
            .ok_or_else(|| {
                Diagnostic::of(&codes::file::MISSING, "there is no folder for settings; start with --home and a folder")
            })?
            .join(FILE);
        let old = match self.host.read(&file) {
            Ok(old) => old,
            Err(fault) if fault.trouble == crate::host::Trouble::Missing => String::new(),
            Err(fault) => return Err(fault.into()),
        };
        if Settings::read(&old, self.settings.rules.clone()).is_err() {
            let message = format!("{} has faults and was not changed; fix or remove it first", file.display());
            return Err(Diagnostic::of(&codes::setting::FILE, message).into());
        }
        self.host.write(&file, &self.settings.write(&old))?;
        let file = Some(file.display().to_string());
        Ok(Reply::Shop { settings: self.settings.clone(), shown: Vec::new(), file })
    }

    fn setting_names(&self) -> Vec<String> {
        self.settings.all().into_iter().map(|setting| setting.name.into()).collect()
    }

    fn shop_page(&self, shown: Vec<String>) -> Reply {
        Reply::Shop { settings: self.settings.clone(), shown, file: None }
    }
}
