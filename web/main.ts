import { mount } from 'svelte';
import App from './app.svelte';
import './styles/main.css';

const target = document.getElementById('app');
if (target === null) throw new Error('The page has no place for the workbench.');
mount(App, { target });
